using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Dsp;

namespace Cockpit.Commands;

/// <summary>What the meter's display shows at a moment.</summary>
/// <param name="Source">What is measured.</param>
/// <param name="Samples">What its samples are.</param>
/// <param name="Utc">Time of the last window.</param>
/// <param name="Reading">The last window.</param>
/// <param name="BestSnrDb">Highest SNR of the last seconds; null where there was none.</param>
/// <param name="Seconds">How long the measurement is.</param>
/// <param name="Whole">How long it will be; null where nobody knows.</param>
/// <param name="Spectrum">Power of each bin, from half the sample rate below the centre upwards; empty before the first window.</param>
/// <param name="SampleRate">Samples a second.</param>
/// <param name="Rows">Rows of the table, oldest first.</param>
internal sealed record MeterScene(
    string Source,
    string Samples,
    DateTimeOffset Utc,
    MeterReading Reading,
    double? BestSnrDb,
    double Seconds,
    double? Whole,
    ImmutableArray<float> Spectrum,
    double SampleRate,
    ImmutableArray<string> Rows)
{
    private const double LowestSnrDb = -10;
    private const double HighestSnrDb = 25;
    private const double LowestLevelDb = -60;
    private const int ScaleWidth = 7;
    private const int NumberWidth = 19;
    private const int LeastPlot = 4;
    private const int MostPlot = 12;
    private const double ScaleStepDb = 5;
    private const double LeastSpanDb = 15;

    /// <summary>The lines of it; pure.</summary>
    /// <param name="width">Columns of the terminal.</param>
    /// <param name="height">Lines to fill.</param>
    /// <param name="signs">What to draw with.</param>
    public ImmutableArray<string> Compose(int width, int height, DrawingSigns signs)
    {
        ImmutableArray<string>.Builder lines = ImmutableArray.CreateBuilder<string>(height);
        lines.Add(Ends($" {Source}", Samples, width));
        lines.Add(Progress(width, signs));
        int bar = Math.Max(width - NumberWidth - 1, 1);
        lines.Add(Number("SNR", Reading.SnrDb, "dB") + signs.Bar(Share(Reading.SnrDb, LowestSnrDb, HighestSnrDb), bar, Share(BestSnrDb, LowestSnrDb, HighestSnrDb)));
        lines.Add(Number("level", Reading.LevelDbfs, "dBFS") + signs.Bar(Share(Reading.LevelDbfs, LowestLevelDb, 0), bar));
        lines.Add(Words(signs));
        string attention = MeterRows.WordsOf(Reading.Warnings);
        lines.Add(attention.Length == 0 ? "" : $" ! {attention}");
        int plot = Math.Clamp((height - lines.Count - 2) / 2, LeastPlot, MostPlot);
        AddSpectrum(lines, width, plot, signs);
        lines.Add("");
        int room = height - lines.Count - 1;
        if (room > 0)
        {
            lines.Add(" " + MeterRows.Heading);
            lines.AddRange(Rows.TakeLast(room).Select(row => " " + row));
        }

        while (lines.Count < height)
        {
            lines.Add("");
        }

        return [.. lines.Take(height).Select(line => line.Length < width ? line : line[..(width - 1)])];
    }

    private static double? Share(double? value, double low, double high) => (value - low) / (high - low);

    private static string Number(string label, double? value, string unit) =>
        $" {label,-6}{value?.ToString("0.0", CultureInfo.InvariantCulture) ?? "--.-",6} {unit,-4} ";

    private static string Ends(string left, string right, int width) => left.Length + right.Length + 2 > width
        ? left
        : left + right.PadLeft(width - 1 - left.Length);

    private string Progress(int width, DrawingSigns signs)
    {
        string now = string.Create(CultureInfo.InvariantCulture, $" {Utc:HH:mm:ss.f} UTC  {Span(Seconds)}");
        if (Whole is not { } whole || whole <= 0)
        {
            return now;
        }

        double share = Math.Clamp(Seconds / whole, 0, 1);
        string of = string.Create(CultureInfo.InvariantCulture, $" of {Span(whole)}  {100 * share,3:0} %  ");
        return now + of + signs.Bar(share, Math.Max(width - now.Length - of.Length - 1, 1));
    }

    private string Words(DrawingSigns signs)
    {
        string kind = Reading.Kind == SignalKind.None
            ? " no signal  "
            : string.Create(CultureInfo.InvariantCulture, $" {Reading.Kind.Name()} {100 * Reading.Confidence:0} %  ");
        string offset = Reading.OffsetHz is { } hz ? string.Create(CultureInfo.InvariantCulture, $"  offset {hz / 1e3:+0.000;-0.000} kHz") : "";
        string floor = Reading.NoiseDbfs is { } noise ? string.Create(CultureInfo.InvariantCulture, $"  floor {noise:0.0} dBFS") : "";
        string density = Reading.CarrierToNoiseDbHz is { } db ? string.Create(CultureInfo.InvariantCulture, $"  C/N0 {db:0.0} dB-Hz") : "";
        return kind + string.Create(
            CultureInfo.InvariantCulture,
            $"{(Reading.Locked ? signs.On : signs.Off)} {(Reading.Locked ? "locked" : "no lock")}  frames {Reading.LinesReceived}  lost {Reading.LinesLost}{offset}{density}{floor}");
    }

    private void AddSpectrum(ImmutableArray<string>.Builder lines, int width, int rows, DrawingSigns signs)
    {
        int columns = Math.Max(width - ScaleWidth - 2, 1);
        double[] peaks = Peaks(columns);
        double low = ScaleStepDb * Math.Floor(((Reading.NoiseDbfs ?? LowestLevelDb) - 3) / ScaleStepDb);
        double high = Math.Max(low + LeastSpanDb, ScaleStepDb * Math.Ceiling((peaks.Max() + 1) / ScaleStepDb));
        double[] heights = [.. peaks.Select(db => (db - low) / (high - low))];
        for (int row = 0; row < rows; row++)
        {
            string scale = row == 0 ? Scale(high) : row == rows - 1 ? Scale(low) : "";
            lines.Add($"{scale,ScaleWidth - 1} {signs.Row(heights, row, rows)}");
        }

        char[] axis = new string(signs.Line, columns).ToCharArray();
        if (Reading.OffsetHz is { } hz)
        {
            axis[Math.Clamp((int)(((hz / SampleRate) + 0.5) * columns), 0, columns - 1)] = signs.Here;
        }

        lines.Add($"{"dB",ScaleWidth - 1} {new string(axis)}");
        string edge = string.Create(CultureInfo.InvariantCulture, $"{SampleRate / 2e3:0} kHz");
        char[] names = new string(' ', columns).ToCharArray();
        $"-{edge}".AsSpan(0, Math.Min(edge.Length + 1, columns)).CopyTo(names);
        names[columns / 2] = '0';
        string right = $"+{edge}";
        if (right.Length < columns / 2)
        {
            right.CopyTo(names.AsSpan(columns - right.Length));
        }

        lines.Add(new string(' ', ScaleWidth) + new string(names));
    }

    private double[] Peaks(int columns)
    {
        double[] peaks = new double[columns];
        for (int k = 0; k < columns; k++)
        {
            float most = 1e-20f;
            int from = (int)((long)k * Spectrum.Length / columns), to = Math.Max((int)((k + 1L) * Spectrum.Length / columns), from + 1);
            for (int bin = from; bin < to && bin < Spectrum.Length; bin++)
            {
                most = Math.Max(most, Spectrum[bin]);
            }

            peaks[k] = 10 * Math.Log10(most);
        }

        return peaks;
    }

    private static string Scale(double db) => ((int)db).ToString(CultureInfo.InvariantCulture);

    private static string Span(double seconds)
    {
        TimeSpan span = TimeSpan.FromSeconds(Math.Min(seconds, 1e6));
        return string.Create(CultureInfo.InvariantCulture, $"{(int)span.TotalMinutes:00}:{span.Seconds:00}");
    }
}
