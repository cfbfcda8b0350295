using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Passes;
using Cockpit.Core.Verdicts;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;

namespace Cockpit.Calendars;

/// <summary>Passes as a calendar that a phone can import, each with an alarm before it rises (iCalendar, RFC 5545).</summary>
public static class PassCalendar
{
    /// <summary>Time to carry the dish out and set it up.</summary>
    public static readonly TimeSpan UsualAlarm = TimeSpan.FromMinutes(20);

    /// <summary>Two element sets of different days move a pass by seconds: it keeps its identity within this span, far less than one orbit.</summary>
    private static readonly TimeSpan SamePass = TimeSpan.FromMinutes(20);

    /// <summary>Most passes of one calendar: some 10 kB of memory each, and no calendar program shows more of use.</summary>
    public const int MostPasses = 5000;

    /// <summary>Why so many passes do not go into a calendar; null when they do.</summary>
    /// <param name="passes">How many there are.</param>
    public static string? Validate(int passes) => passes <= MostPasses
        ? null
        : FormattableString.Invariant($"--ics: {passes} passes are more than the {MostPasses} of one calendar; choose with --satellite, or make --for shorter or --above higher");

    /// <summary>The text of the calendar.</summary>
    /// <param name="verdicts">The passes, in any order.</param>
    /// <param name="site">Where the dish stands.</param>
    /// <param name="stamp">When the calendar was made, UTC.</param>
    /// <param name="alarm">How long before AOS the alarm sounds, zero or more.</param>
    public static string Write(IEnumerable<PassVerdict> verdicts, Site site, DateTimeOffset stamp, TimeSpan alarm)
    {
        ArgumentNullException.ThrowIfNull(verdicts);
        ArgumentOutOfRangeException.ThrowIfLessThan(alarm, TimeSpan.Zero);
        var calendar = new Ical.Net.Calendar { ProductId = "-//Cockpit//Passes//EN", Version = "2.0", Method = "PUBLISH" };
        foreach (PassVerdict verdict in verdicts.OrderBy(verdict => verdict.Pass.Aos.Utc))
        {
            calendar.Events.Add(Event(verdict, site, stamp, alarm));
        }

        return FoldedLines.Of(new CalendarSerializer().SerializeToString(calendar) ?? throw new InvalidOperationException("the calendar could not be written"));
    }

    private static CalendarEvent Event(PassVerdict verdict, Site site, DateTimeOffset stamp, TimeSpan alarm)
    {
        Pass pass = verdict.Pass;
        string name = TextFilter.Clean(verdict.Candidate.Satellite);
        var made = new CalendarEvent
        {
            Uid = Identity(verdict),
            DtStamp = Utc(stamp),
            DtStart = Utc(pass.Aos.Utc),
            DtEnd = Utc(pass.Los.Utc.AddSeconds(1).AddTicks(-1)), // a calendar knows whole seconds: the set is not cut off
            Summary = $"{name}, {verdict.Sentence}",
            Description = Description(verdict, site),
            GeographicLocation = new GeographicLocation(site.Latitude.Degrees, site.Longitude.Degrees),
            Transparency = TransparencyType.Opaque,
        };
        made.Alarms.Add(new Alarm
        {
            Action = AlarmAction.Display,
            Description = FormattableString.Invariant($"{name} rises at {pass.Aos.Utc.UtcDateTime:HH:mm:ss} UTC in the {CompassWords.Sixteen(pass.Aos.Look.Azimuth)}"),
            Trigger = new Trigger(-Duration.FromTimeSpanExact(TimeSpan.FromSeconds(Math.Round(alarm.TotalSeconds)))),
        });
        return made;
    }

    private static string Description(PassVerdict verdict, Site site)
    {
        MagneticField field = WorldMagneticModel.At(site, verdict.Pass.Aos.Utc);
        string Line(string word, PassMoment moment) => string.Create(
            CultureInfo.InvariantCulture,
            $"{word} {moment.Utc.UtcDateTime:HH:mm:ss} UTC, azimuth {moment.Look.Azimuth.Degrees:0}° ({field.ToMagnetic(moment.Look.Azimuth).Degrees:0}° by compass), elevation {moment.Look.Elevation.Degrees:0}°");
        return string.Join('\n', [
            verdict.Travel,
            Line("AOS", verdict.Pass.Aos),
            Line("TCA", verdict.Pass.Tca),
            Line("LOS", verdict.Pass.Los),
            FormattableString.Invariant($"margin at culmination {verdict.MarginAtCulmination.Value:+0.0;-0.0} dB, give or take {verdict.MarginUncertainty.Value:0} dB"),
            FormattableString.Invariant($"{verdict.ElementAge.Words()} then: up to {verdict.ElementAge.HighSeconds:0.0} s early or late"),
            .. verdict.SunNear ? [SunCaution] : Array.Empty<string>(),
        ]);
    }

    private const string SunCaution = "Caution: the dish comes near the sun. Do not look along it; keep out of the focus of a shiny dish.";

    private static string Identity(PassVerdict verdict)
    {
        long slot = (long)Math.Round((verdict.Pass.Tca.Utc - DateTimeOffset.UnixEpoch) / SamePass);
        string instant = DateTimeOffset.UnixEpoch.Add(slot * SamePass).ToString("yyyyMMdd'T'HHmm'Z'", CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"pass-{verdict.Candidate.CatalogNumber}-{instant}@cockpit");
    }

    private static CalDateTime Utc(DateTimeOffset utc) => new(utc.UtcDateTime, hasTime: true);
}
