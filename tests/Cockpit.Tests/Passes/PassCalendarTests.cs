using Cockpit.Calendars;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Session.Rehearsal;
using Ical.Net;
using Ical.Net.CalendarComponents;

namespace Cockpit.Tests.Passes;

public sealed class PassCalendarTests
{
    private static readonly DateTimeOffset Aos = new(2026, 11, 25, 11, 0, 0, TimeSpan.Zero);
    private static readonly Site Lowland = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);

    // RFC 5545: 3.4 calendar object, 3.6.1 event with UID and DTSTAMP, 3.6.6 alarm with a trigger before the start, 3.1 lines of at most 75 octets ended by CRLF.
    [Fact]
    public void A_pass_becomes_an_event_with_an_alarm_before_it_rises()
    {
        string text = Write(Verdict(60));
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.EndsWith("END:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.All(text.Split("\r\n"), line => Assert.InRange(System.Text.Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.Contains("\r\nDTSTART:20261125T110000Z\r\n", text, StringComparison.Ordinal);
        Assert.Contains("\r\nDTSTAMP:20261124T180000Z\r\n", text, StringComparison.Ordinal);
        Assert.Contains("\r\nTRIGGER:-PT20M\r\n", text, StringComparison.Ordinal);
        Assert.Contains("\r\nACTION:DISPLAY\r\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Reading_it_back_gives_the_pass()
    {
        PassVerdict verdict = Verdict(60);
        CalendarEvent read = Assert.Single(Calendar.Load(Write(verdict))!.Events);
        Assert.Equal(Aos.UtcDateTime, read.DtStart!.AsUtc);
        Assert.InRange((read.DtEnd!.AsUtc - verdict.Pass.Los.Utc.UtcDateTime).TotalSeconds, 0, 1);
        Assert.Equal("PETREL 2, " + verdict.Sentence, read.Summary);
        Assert.StartsWith(verdict.Travel + "\nAOS 11:00:00 UTC, azimuth ", read.Description, StringComparison.Ordinal);
        Assert.Equal(47.8, read.GeographicLocation!.Latitude, 1e-6);
        Assert.Contains("PETREL 2 rises at 11:00:00 UTC in the ", Assert.Single(read.Alarms).Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Newer_elements_move_the_event_and_do_not_double_it()
    {
        string Uid(PassVerdict verdict) => Assert.Single(Calendar.Load(Write(verdict))!.Events).Uid!;
        Assert.Equal(Uid(Verdict(60)), Uid(Verdict(60, Aos.AddSeconds(4))));
        Assert.NotEqual(Uid(Verdict(60)), Uid(Verdict(60, Aos.AddMinutes(101))));
    }

    [Fact]
    public void Events_stand_in_order_of_time_and_none_gives_an_empty_calendar()
    {
        string text = PassCalendar.Write([Verdict(30, Aos.AddHours(3)), Verdict(60)], Lowland, Aos, TimeSpan.FromMinutes(5));
        Assert.True(text.IndexOf("DTSTART:20261125T110000Z", StringComparison.Ordinal) < text.IndexOf("DTSTART:20261125T140000Z", StringComparison.Ordinal));
        Assert.Empty(Calendar.Load(PassCalendar.Write([], Lowland, Aos, TimeSpan.Zero))!.Events);
    }

    // RFC 5545, 3.1: a line has at most 75 octets, and a fold must not stand inside a character.
    [Fact]
    public void A_name_of_emoji_is_folded_between_characters_and_reads_back()
    {
        string name = string.Concat(Enumerable.Repeat("\U0001F6F0\u885B", 40));
        PassVerdict verdict = Verdict(60, name: name);
        string text = Write(verdict);
        Assert.All(text.Split("\r\n"), line => Assert.InRange(System.Text.Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.Equal(-1, Cockpit.Core.Formats.TextFilter.FirstHarmful(text.Replace("\r\n", "", StringComparison.Ordinal)));
        Assert.Equal($"{name}, {verdict.Sentence}", Assert.Single(Calendar.Load(text)!.Events).Summary);
    }

    private static string Write(PassVerdict verdict) =>
        PassCalendar.Write([verdict], Lowland, new DateTimeOffset(2026, 11, 24, 18, 0, 0, TimeSpan.Zero), PassCalendar.UsualAlarm);

    private static PassVerdict Verdict(double highest, DateTimeOffset? aos = null, string name = "PETREL 2")
    {
        var track = new CircularPass(aos ?? Aos, Angle.FromDegrees(highest));
        return PassJudge.One(new PassCandidate(name, 90002, track.Pass, track, new ElementAge(TimeSpan.FromHours(6), 7.45)), new VerdictSettings { Site = Lowland });
    }

    [Fact]
    public void More_passes_than_a_calendar_takes_are_refused_in_one_sentence()
    {
        Assert.Null(PassCalendar.Validate(PassCalendar.MostPasses));
        Assert.Equal(
            "--ics: 5001 passes are more than the 5000 of one calendar; choose with --satellite, or make --for shorter or --above higher",
            PassCalendar.Validate(PassCalendar.MostPasses + 1));
    }
}
