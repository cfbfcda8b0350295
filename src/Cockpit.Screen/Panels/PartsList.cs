using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>Health of feeds, journal and sound: a sign, a name, what is wrong; the broken ones first.</summary>
internal static class PartsList
{
    private const int RoomForAddress = 34;

    public static IEnumerable<Row> Of(Snapshot now, int width) =>
        Feeds(now, width).Append(Journal(now.Desk)).Append(Sound(now.Desk)).OrderByDescending(part => Weight(part.Role));

    private static int Weight(Role role) => role switch
    {
        Role.Warning => 3,
        Role.Caution => 2,
        Role.Stale => 1,
        _ => 0,
    };

    private static IEnumerable<Row> Feeds(Snapshot now, int width)
    {
        foreach (FeedNow feed in now.Feeds.IsDefault ? [] : now.Feeds)
        {
            (char sign, Role role) = Sign(feed.Health);
            string since = feed.SilentSince is { } utc ? $"silent {Figures.Clock(utc)}" : "";
            string state = feed.Health switch
            {
                FeedHealth.Good => string.Create(CultureInfo.InvariantCulture, $"{feed.Records} records"),
                FeedHealth.Waiting => since.Length > 0 ? since : "waiting",
                FeedHealth.Unreadable => "not readable",
                _ => since,
            };
            string where = width >= RoomForAddress ? $"  {feed.Where}" : "";
            yield return new Row("", $"{sign} {Figures.Fit(feed.Name, 7)} {state}{where}", role);
        }
    }

    private static (char Sign, Role Role) Sign(FeedHealth health) => health switch
    {
        FeedHealth.Good => ('●', Role.Good),
        FeedHealth.Waiting => ('○', Role.Stale),
        FeedHealth.Stale => ('◐', Role.Caution),
        FeedHealth.Absent => ('×', Role.Warning),
        _ => ('#', Role.Caution),
    };

    private static Row Journal(DeskNow desk) => desk.JournalTrouble is null
        ? new Row("", "● journal written", Role.Good)
        : new Row("", "× journal NOT WRITTEN", Role.Warning);

    private static Row Sound(DeskNow desk)
    {
        if (desk.Speaker is null)
        {
            return new Row("", "○ sound   none yet", Role.Stale);
        }

        if (desk.Muted)
        {
            return new Row("", "○ sound   MUTED (M)", Role.Caution);
        }

        string volume = desk.VolumeDb == 0.0 ? "" : $" {Figures.Of(desk.VolumeDb, 3, 0, signed: true)} dB";
        return desk.SpeakerTrouble is null
            ? new Row("", $"● sound   {desk.Speaker}{volume}", Role.Good)
            : new Row("", $"◐ sound   {desk.Speaker}{volume}", Role.Stale);
    }
}
