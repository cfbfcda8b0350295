using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds.Samples;

/// <summary>What the meter finds, as the readings of a feed: SNR, carrier, clipping, lock, lines of the picture received and lost.</summary>
/// <param name="publisher">Where to say it.</param>
/// <param name="feed">Name of the feed.</param>
/// <param name="sampleRate">Samples a second.</param>
/// <param name="centreOffsetHz">Centre of the samples minus the downlink as sent, hertz; null where one of them is not known.</param>
/// <param name="picture">The whole picture, which goes on over connections.</param>
/// <remarks>
/// The transfer frames of coded QPSK are no lines of a picture, and there are many more of them; they count as the lines that would have been sent
/// in their time, six a second, so that what the two services lose can be compared.
/// </remarks>
internal sealed class SampleReadings(FeedPublisher publisher, string feed, double sampleRate, double? centreOffsetHz, QuickLook picture) : IMeterSink
{
    /// <summary>What stands for "none that the meter can see", dB: it sees signals down to about 10 dB under the noise.</summary>
    public const double NoSignalDb = -12.0;

    /// <summary>The channel of the picture that is shown.</summary>
    public const int Channel = 0;

    private const double LinesPerSecond = 6.0;
    private const double LongestFrame = 0.2;

    // A row is told half a second after it came at most: two events a second are enough to look at.
    private const int RowsTold = 3;

    private readonly List<string> _rows = [];
    private readonly ushort[] _line = new ushort[MinorFrame.EarthSamples];
    private long _told;
    private double _received;
    private double _lost;
    private double? _lastStart;
    private SignalKind _kind;

    /// <summary>What is wrong with the samples by the last window, for people; null when nothing is.</summary>
    public string? Remark { get; private set; }

    /// <summary>Whether frames were locked in the last window.</summary>
    public bool Locked { get; private set; }

    /// <summary>The samples begin anew: no frame follows on one before.</summary>
    public void Restart() => _lastStart = null;

    /// <inheritdoc/>
    public void Frame(FrameEvent frame)
    {
        double seconds = _lastStart is { } last ? (frame.StartSample - last) / sampleRate : 0;
        _lastStart = frame.StartSample;
        double lines = _kind == SignalKind.Qpsk ? LinesPerSecond * Math.Clamp(seconds, 0, LongestFrame) : 1;
        if (_kind != SignalKind.Qpsk)
        {
            _rows.Add("");
            picture.Frame(frame);
        }

        _received += frame.Received ? lines : 0;
        _lost += frame.Received ? 0 : lines;
    }

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits)
    {
        // The frames of the other service hold no picture that is known here.
        if (_rows.Count > 0 && bits.Length == (MinorFrame.Bits + 7) / 8)
        {
            MinorFrame.ReadChannel(bits, Channel, _line);
            _rows[^1] = GreyRow.Of(_line);
            picture.Bits(bits);
        }
    }

    /// <inheritdoc/>
    public void Window(in MeterReading reading)
    {
        _kind = reading.Kind is SignalKind.None or SignalKind.Carrier ? _kind : reading.Kind;
        Locked = reading.Locked;
        Remark = WordsOf(reading.Warnings);
        publisher.Measured(new SignalMeasured(feed, new SignalSample
        {
            LevelDb = reading.LevelDbfs,
            SnrDb = Math.Max(reading.SnrDb ?? NoSignalDb, NoSignalDb),
            OffsetHz = reading.OffsetHz + (centreOffsetHz ?? 0),
            Locked = reading.Locked,
            Frames = (long)Math.Round(_received),
            FramesLost = (long)Math.Round(_lost),
            Clipped = reading.ClipShare,
        }));
        if (_rows.Count >= RowsTold)
        {
            publisher.Say(new PictureGrew(feed, _told + 1, [.. _rows]));
            _told += _rows.Count;
            _rows.Clear();
        }
    }

    private static string? WordsOf(MeterWarnings warnings) =>
        warnings.HasFlag(MeterWarnings.Overload) ? "the receiver is overloaded: turn its gain down"
        : warnings.HasFlag(MeterWarnings.AmplifierOff) ? "the noise fell: has the amplifier lost its power?"
        : warnings.HasFlag(MeterWarnings.GainTooLow) ? "the samples hardly move: turn the gain up"
        : warnings.HasFlag(MeterWarnings.Dc) ? "a line at the centre is stronger than everything else: tune beside the signal"
        : null;
}
