using System.Collections.Immutable;
using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;

namespace Cockpit.Checks;

/// <summary>Damages lines of receivers at random and reads them: each gives a measurement in range, nothing, or a mistake with its column.</summary>
public sealed class LineMutations
{
    private const double LargestDb = 250;
    private const double LargestOffsetHz = 1e9;
    private const int LongestLine = 4096;

    private static readonly ImmutableArray<byte[]> Seeds =
    [
        .. new[]
        {
            "snr=7.4 level=-61.2 lock=1 df=-1250.5 frames=120 ber=1e-3 clip=0.02",
            "t=2026-11-25T12:00:00Z snr=1",
            """{"t":1795608000,"lock":true,"frames":12,"snr":7.4}""",
            """{"rx":[{"demod":{"SNR":"7.4 dB","locked":"yes"}}]}""",
            "[2026-11-25 12:00:05] INFO SNR: 7,4 dB, level -61.2 dBFS, not locked",
            "Offset [kHz] = -1.25; C/N0 68.2 dB-Hz; clip=2%; frames: 1204",
            "-61.2 dB",
            "-61.2",
            "time;snr;level",
            "12:00:05;7,4;-61,2",
            "2026-11-25 12:00:05,7.4 dB,-61.2,locked",
        }.Select(Encoding.UTF8.GetBytes),
    ];

    private readonly Xoshiro256 _chance;

    // A feed remembers what its lines told; here they are all damaged, and all of one feed.
    private readonly TrustedLines _feed = new();
    private readonly TrustedLines _columns = new(SignalColumns.Read("time,snr,level,lock", "columns").Value);

    /// <summary>Starts a sequence of damage.</summary>
    /// <param name="seed">Where it starts.</param>
    public LineMutations(ulong seed) => _chance = new Xoshiro256(seed);

    /// <summary>Lines so far.</summary>
    public long Number { get; private set; }

    /// <summary>Measurements so far.</summary>
    public long Measurements { get; private set; }

    /// <summary>Mistakes so far.</summary>
    public long Mistakes { get; private set; }

    /// <summary>The last line, or what is wrong with its reading.</summary>
    public byte[] Line { get; private set; } = [];

    /// <summary>Reads one more line.</summary>
    /// <returns>Null when its reading is as it must be, else what is wrong with it.</returns>
    public string? Next()
    {
        Line = Damaged(Seeds[_chance.NextBelow(Seeds.Length)]);
        Number++;
        SignalLine read = SignalLine.Read(Line, "line");
        Measurements += read.Sample is null ? 0 : 1;
        Mistakes += read.Error is null ? 0 : 1;
        return Wrong(read) ?? Wrong(_feed.Read(Line, "line")) ?? Wrong(_columns.Read(Line, "line"));
    }

    private string? Wrong(SignalLine read)
    {
        return read.Error is { } error && (error.Column < 1 || error.Column > Math.Max(Line.Length, LongestLine) + 1) ? "its column is not on the line"
            : read.Sample is { } sample ? OutOfRange(sample) : null;
    }

    private static string? OutOfRange(SignalSample sample)
    {
        bool good = Within(sample.LevelDb, -LargestDb, LargestDb) && Within(sample.SnrDb, -LargestDb, LargestDb) && Within(sample.Cn0DbHz, -LargestDb, LargestDb)
            && Within(sample.OffsetHz, -LargestOffsetHz, LargestOffsetHz) && Within(sample.BitErrorRatio, 0, 1) && Within(sample.Clipped, 0, 1)
            && sample.Frames is null or >= 0;
        return good ? null : "a value is out of range";
    }

    private static bool Within(double? value, double least, double most) => value is not { } number || (number >= least && number <= most);

    private byte[] Damaged(byte[] seed)
    {
        List<byte> line = [.. seed];
        for (int changes = 1 + _chance.NextBelow(4); changes > 0 && line.Count > 0; changes--)
        {
            int at = _chance.NextBelow(line.Count);
            switch (_chance.NextBelow(4))
            {
                case 0: line.Insert(at, (byte)_chance.NextBelow(256)); break;
                case 1: line.RemoveAt(at); break;
                case 2: line[at] = (byte)_chance.NextBelow(256); break;
                default: line.AddRange(line.Skip(at).Take(_chance.NextBelow(12)).ToArray()); break;
            }
        }

        return [.. line];
    }
}
