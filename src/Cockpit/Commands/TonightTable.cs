using System.Globalization;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Commands;

/// <summary>The evening for people: eighty columns, few lines.</summary>
/// <param name="output">Where to.</param>
/// <param name="clock">Local time.</param>
/// <param name="need">What recordings need.</param>
/// <param name="folder">Where they are kept.</param>
internal sealed class TonightTable(TextWriter output, WallTime clock, RecordingNeed need, string folder)
{
    private const double Giga = 1e9;

    private readonly OutputRows _rows = new(output, OutputFormat.Table, [
        new("", "", -6), new("", "local", -11), new("", "UTC", -8), new("", "azimuth", 7), new("", "compass", 7),
        new("", "elevation", 9), new("", "tune, MHz", 9), new("", "below", -8)]);

    /// <summary>Prints it.</summary>
    public void Print(Evening evening)
    {
        output.Write($"{Placement.Words(evening.Question.Station)}, {Instant(evening.Question.From)} to {Instant(evening.Question.To)}\n");
        if (!evening.Passes.IsEmpty)
        {
            output.Write(string.Create(CultureInfo.InvariantCulture, $"Local time is {clock.Zone?.Id ?? "UTC"}. Azimuths are true, by compass {Compass(evening.Field.Declination)}.\n"));
            _rows.Begin();
        }

        foreach (EveningPass pass in evening.Passes)
        {
            Print(pass);
        }

        foreach (SharedDish share in evening.Shares)
        {
            _rows.Note(share.Words(clock));
        }

        Recording(evening);
        if (evening.Passes.Any(pass => pass.Verdict.SunNear))
        {
            _rows.Note("Caution: the sun comes near the beam. Do not look along the dish, and keep out of the hot focus of a shiny one.");
        }

        if (evening.Left + evening.Weak > 0)
        {
            _rows.Note(LeftOut(evening));
        }
    }

    private string Instant(DateTimeOffset utc) => $"{clock.BriefDate(utc)} {clock.Minute(utc)}{clock.Offset(utc)}";

    private void Print(EveningPass pass)
    {
        output.Write(string.Create(CultureInfo.InvariantCulture, $"{pass.Number} {pass.Satellite}, {clock.BriefDate(pass.Rise.Utc)}: {pass.Verdict.Brief}\n"));
        Row("rise", pass.Rise);
        Row("top", pass.Top);
        Row("set", pass.Set);
        _rows.Note(string.Join("; ", Remarks(pass)));
    }

    private void Row(string name, EveningMoment moment) => _rows.Add(
        Cell.Of("  " + name),
        Cell.Of(clock.SecondWithOffset(moment.Utc)), Cell.Of(new WallTime(null).Second(moment.Utc)),
        Cell.Of(Whole(moment.Azimuth)), Cell.Of(Whole(moment.Compass)), Cell.Of(Elevation(moment)),
        Cell.Of(moment.Tuned.Hertz / 1e6, 4), Cell.Of(GroundLights.Word(moment.Below)));

    private IEnumerable<string> Remarks(EveningPass pass)
    {
        PassVerdict verdict = pass.Verdict;
        yield return verdict.LightWords;
        yield return string.Create(CultureInfo.InvariantCulture, $"tune {pass.Planned.Link.Carrier.Hertz / 1e6:0.0##} MHz now");
        yield return string.Create(CultureInfo.InvariantCulture, $"receives {verdict.Receivable.TotalMinutes:0.0} min, {verdict.MarginAtCulmination.Value:+0.0;-0.0} dB over need at the top");
        if (pass.Top.OverSkyline is { } over)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"top {over.Degrees:0}° over the skyline");
        }

        yield return Body("sun", verdict.Sun, verdict.SunNear);
        yield return Body("moon", verdict.Moon, verdict.MoonNear);
        if (need.For(pass.Duration) is { } bytes)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"recording {bytes / Giga:0.0} GB{(need.Fits(pass.Duration) == false ? ", more than is free" : "")}");
        }

        if (verdict.AgeRemark is { } age)
        {
            yield return age;
        }
    }

    private string Body(string name, BodyNearness? body, bool near) => body is not { } there ? $"{name} down"
        : string.Create(CultureInfo.InvariantCulture, $"{name} {there.Separation.Degrees:0}° away{(near ? " at " + clock.Minute(there.Utc) : "")}");

    private void Recording(Evening evening)
    {
        if (evening.Passes.IsEmpty)
        {
            return;
        }

        string free = need.FreeBytes is { } bytes ? string.Create(CultureInfo.InvariantCulture, $"{bytes / Giga:0.0} GB are free in {folder}") : $"what is free in {folder} cannot be asked";
        _rows.Note(need.BytesPerSecond is { } rate
            ? string.Create(CultureInfo.InvariantCulture, $"A recording takes {rate * 60.0 / Giga:0.00} GB a minute; {free}.")
            : $"{char.ToUpperInvariant(free[0])}{free[1..]}; what a recording takes is known once the settings say iq_format and sample_rate, or --signal ends in ?format=ci16&rate=3000000.");
    }

    private static string LeftOut(Evening evening)
    {
        string good = evening.Left == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{evening.Left} more that are worth something (--most {evening.Left + evening.Passes.Length})");
        string poor = evening.Weak == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{evening.Weak} that are too weak (cockpit passes --all)");
        return $"Left out: {string.Join(" and ", new[] { good, poor }.Where(text => text.Length > 0))}.";
    }

    private static string Elevation(EveningMoment moment) => string.Create(CultureInfo.InvariantCulture, $"{moment.Elevation.Degrees:0}°");

    private static string Compass(Angle declination) => string.Create(
        CultureInfo.InvariantCulture, $"{Math.Abs(declination.Degrees):0.0}° {(declination.Degrees < 0 ? "more" : "less")}");

    private static string Whole(Angle azimuth) => (Math.Round(azimuth.Degrees) % 360.0).ToString("000", CultureInfo.InvariantCulture) + "°";
}
