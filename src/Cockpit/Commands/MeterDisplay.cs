using System.Collections.Immutable;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Formats;

namespace Cockpit.Commands;

/// <summary>Takes the windows of the meter and shows them, until nothing more comes.</summary>
internal interface IMeterOutput : IMeterSink
{
    /// <summary>Samples that were measured, and those that were missing among them.</summary>
    long Samples { get; }

    /// <summary>Before the first window.</summary>
    void Begin();

    /// <summary>Nothing more comes.</summary>
    /// <param name="meter">The meter, finished.</param>
    void Finish(SignalMeter meter);
}

/// <summary>The meter as a live table with level bar and spectrum, drawn over itself in a terminal.</summary>
/// <param name="terminal">The terminal; nothing from outside goes there unfiltered.</param>
/// <param name="size">Its columns and lines now.</param>
/// <param name="signs">What to draw with.</param>
/// <param name="source">What is measured.</param>
/// <param name="samples">What its samples are, in words.</param>
/// <param name="start">Time of the first sample.</param>
/// <param name="whole">Seconds that will be measured; null where nobody knows.</param>
/// <param name="look">The picture that grows with it; null where none is wanted.</param>
/// <param name="time">What the pauses between two drawings go by.</param>
internal sealed class MeterDisplay(
    TextWriter terminal, Func<(int Width, int Height)> size, DrawingSigns signs, string source, string samples, DateTimeOffset start, double? whole, QuickLook? look, TimeProvider time) : IMeterOutput
{
    private const int MostRows = 60;
    private const int LeastWidth = 40;
    private const int LeastHeight = 16;
    private const int MostHeight = 40;
    private const int WindowsOfBest = 50;
    private const float Smoothing = 0.4f;
    private static readonly TimeSpan Period = TimeSpan.FromSeconds(0.1);

    private readonly Queue<double?> _recent = new();
    private readonly Queue<string> _rows = new();
    private float[] _spectrum = [];
    private MeterReading _last;
    private long _second = -1;
    private long _drawnAt;
    private int _drawn;

    /// <inheritdoc/>
    public long Samples { get; private set; }

    /// <summary>The meter whose spectrum is shown.</summary>
    public SignalMeter? Meter { get; init; }

    /// <inheritdoc/>
    public void Begin()
    {
        // Hide the cursor while lines are drawn over (DEC private mode 25).
        terminal.Write("\u001b[?25l");
        _drawnAt = time.GetTimestamp();
    }

    /// <inheritdoc/>
    public void Frame(FrameEvent frame) => look?.Frame(frame);

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits) => look?.Bits(bits);

    /// <inheritdoc/>
    public void Window(in MeterReading reading)
    {
        _last = reading;
        Samples = reading.FirstSample + reading.Samples;
        _recent.Enqueue(reading.SnrDb);
        if (_recent.Count > WindowsOfBest)
        {
            _recent.Dequeue();
        }

        Smooth();
        long second = (long)((reading.FirstSample / Rate) + 1e-6);
        if (second != _second)
        {
            _second = second;
            _rows.Enqueue(MeterRows.LineOf(UtcOf(reading), reading));
            if (_rows.Count > MostRows)
            {
                _rows.Dequeue();
            }
        }

        if (_drawn == 0 || time.GetElapsedTime(_drawnAt) >= Period)
        {
            Draw();
        }
    }

    /// <inheritdoc/>
    public void Finish(SignalMeter meter)
    {
        _last = _last with { LinesReceived = meter.LinesReceived, LinesLost = meter.LinesLost };
        if (Samples > 0)
        {
            Draw();
        }

        terminal.Write("\u001b[?25h");
        terminal.Flush();
    }

    private double Rate => Meter?.SampleRate ?? 1;

    private void Smooth()
    {
        if (Meter is not { } meter)
        {
            return;
        }

        ReadOnlySpan<float> power = meter.Spectrum.Power;
        if (_spectrum.Length != power.Length)
        {
            _spectrum = power.ToArray();
        }

        for (int k = 0; k < power.Length; k++)
        {
            _spectrum[k] += Smoothing * (power[k] - _spectrum[k]);
        }
    }

    private void Draw()
    {
        (int columns, int lines) = size();
        int height = Math.Clamp(lines - 1, LeastHeight, MostHeight);
        MeterScene scene = new(
            TextFilter.Clean(source), samples, UtcOf(_last), _last, _recent.Max(), Samples / Rate, whole, [.. _spectrum], Rate, [.. _rows]);
        ImmutableArray<string> page = scene.Compose(Math.Max(columns, LeastWidth), height, signs);

        // Back to the first line drawn before, and each line's rest erased (ECMA-48, CPL and EL).
        string back = _drawn > 0 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"\u001b[{_drawn}F") : "";
        terminal.Write(back + string.Concat(page.Select(line => line + "\u001b[K\n")));
        terminal.Flush();
        _drawn = height;
        _drawnAt = time.GetTimestamp();
    }

    private DateTimeOffset UtcOf(in MeterReading reading) => start + TimeSpan.FromSeconds(reading.FirstSample / Rate);
}
