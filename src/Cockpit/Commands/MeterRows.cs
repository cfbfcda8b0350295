using System.Collections.Immutable;
using Cockpit.Core.Dsp;

namespace Cockpit.Commands;

/// <summary>How a window of the meter is printed.</summary>
internal static class MeterRows
{
    /// <summary>The columns.</summary>
    public static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("utc", "UTC", 21),
        new("level_dbfs", "level", 6),
        new("noise_dbfs", "noise", 6),
        new("snr_db", "SNR", 5),
        new("offset_hz", "offset", 8),
        new("clip_share", "clip", 6),
        new("kind", "kind", -11),
        new("lock", "lock", 4),
        new("lines_ok", "lines", 6),
        new("lines_lost", "lost", 5),
        new("cn0_dbhz", "C/N0", 5, InCsv: false),
        new("confidence", null, 0, InCsv: false),
        new("dc_dbfs", null, 0, InCsv: false),
        new("first_sample", null, 0, InCsv: false),
        new("frame_starts", null, 0, InCsv: false),
        new("flags", "attention", -12, InCsv: false),
    ];

    /// <summary>The heading of <see cref="LineOf"/>.</summary>
    public static string Heading { get; } = "UTC        level   noise    SNR  offset Hz  kind         lock  frames   lost";

    /// <summary>A window as a short line for people.</summary>
    /// <param name="utc">Time of its first sample.</param>
    /// <param name="reading">What was measured.</param>
    public static string LineOf(DateTimeOffset utc, in MeterReading reading)
    {
        string Short(double? value, string how) => value?.ToString(how, System.Globalization.CultureInfo.InvariantCulture) ?? "-";
        return string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"{utc:HH:mm:ss}  {Short(reading.LevelDbfs, "0.0"),6}  {Short(reading.NoiseDbfs, "0.0"),6}  {Short(reading.SnrDb, "0.0"),5}  {Short(reading.OffsetHz, "0"),9}  {reading.Kind.Name(),-11}  {(reading.Locked ? "yes" : "no"),-4}  {reading.LinesReceived,6}  {reading.LinesLost,5}");
    }

    /// <summary>What is wrong, in words; empty where nothing is.</summary>
    public static string WordsOf(MeterWarnings flags)
    {
        List<string> words = [];
        void Add(MeterWarnings flag, string word)
        {
            if (flags.HasFlag(flag))
            {
                words.Add(word);
            }
        }

        Add(MeterWarnings.AmplifierOff, "amplifier off?");
        Add(MeterWarnings.GainTooLow, "gain too low");
        Add(MeterWarnings.Overload, "overload");
        Add(MeterWarnings.Dc, "DC");
        return string.Join(", ", words);
    }

    /// <summary>The cells of a window.</summary>
    /// <param name="utc">Time of its first sample.</param>
    /// <param name="reading">What was measured.</param>
    /// <param name="starts">First samples of the frames received that were told within it.</param>
    public static Cell[] CellsOf(DateTimeOffset utc, in MeterReading reading, IReadOnlyList<double> starts)
    {
        string flags = WordsOf(reading.Warnings);
        return
        [
            Cell.Of(utc, 3) with { Brief = utc.ToString("yyyy-MM-dd HH:mm:ss.f", System.Globalization.CultureInfo.InvariantCulture) },
            Cell.Of(reading.LevelDbfs, 3, 1),
            Cell.Of(reading.NoiseDbfs, 3, 1),
            Cell.Of(reading.SnrDb, 3, 1),
            Cell.Of(reading.OffsetHz, 1, 0),
            Cell.Of(reading.ClipShare, 6, 4),
            Cell.Of(reading.Kind.Name()),
            Cell.Of(reading.Locked),
            Cell.Of((int)reading.LinesReceived),
            Cell.Of((int)reading.LinesLost),
            Cell.Of(reading.CarrierToNoiseDbHz, 3, 1),
            Cell.Of(reading.Confidence, 3),
            Cell.Of(reading.DcDbfs, 1),
            new Cell(reading.FirstSample.ToString(System.Globalization.CultureInfo.InvariantCulture), true),
            new Cell("[" + string.Join(", ", starts.Select(s => s.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture))) + "]", true),
            Cell.Of(flags, flags.Length == 0 ? " " : null),
        ];
    }
}
