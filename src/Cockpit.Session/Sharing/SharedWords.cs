using Cockpit.Session.Events;

namespace Cockpit.Session.Sharing;

/// <summary>What stands in a shared session in place of names, addresses and sentences; whether something was said is kept, not what.</summary>
internal sealed class SharedWords
{
    /// <summary>In place of the station's name.</summary>
    public const string Station = "shared";

    /// <summary>In place of the satellite's name.</summary>
    public const string Satellite = "SATELLITE";

    private static readonly string[] OwnNames = [Sources.Program, Sources.Clock, Sources.Keys, Sources.Signal, Sources.Tune, Sources.Place, Sources.Pointing, Sources.Rehearsal];

    /// <summary>Devices that are no make of anybody.</summary>
    private static readonly string[] OwnDevices = ["bell", "silent"];

    private readonly List<string> _feeds = [];

    /// <summary>Name of a feed, or of who published an event: one of ours stays, any other is numbered.</summary>
    public string Feed(string name)
    {
        if (Array.IndexOf(OwnNames, name) >= 0)
        {
            return name;
        }

        if (!_feeds.Contains(name, StringComparer.Ordinal))
        {
            _feeds.Add(name);
        }

        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"feed-{_feeds.IndexOf(name) + 1}");
    }

    /// <summary>An event that tells no place, without its words; null for a type that is not known here.</summary>
    public SessionEvent? Without(SessionEvent happened) => happened switch
    {
        SessionClosed => new SessionClosed("ended"),
        Ticked or OperatorPressed or HeadTurned or TruthRecorded => happened,
        ClockCorrected e => e with { Reason = "corrected" },
        ClockCompared e => e with { Against = "a clock", Trouble = Said(e.Trouble) },
        FeedConnected e => e with { Feed = Feed(e.Feed), Where = "" },
        FeedLost e => e with { Feed = Feed(e.Feed), Reason = "lost" },
        FeedLineRejected e => e with { Feed = Feed(e.Feed), Reason = "not in the grammar" },
        FeedRemarked e => e with { Feed = Feed(e.Feed), Remark = Said(e.Remark) },
        FeedNoted e => e with { Feed = Feed(e.Feed), Note = "noted" },
        DirectionKnown e => e with { What = "a known direction" },
        PointingMeasured e => e with { Feed = Feed(e.Feed) },
        ReceiverTuned e => e with { Feed = Feed(e.Feed) },
        RecordingWatched e => e with { Feed = Feed(e.Feed) },
        SpeakerChanged e => new SpeakerChanged(Array.IndexOf(OwnDevices, e.Device) >= 0 ? e.Device : "sound", Said(e.Trouble)),
        DiskMeasured e => e with { Where = "" },
        JournalChanged e => new JournalChanged(Said(e.Trouble)),
        PartFailed => new PartFailed("a part", "failed"),
        _ => null,
    };

    private static string? Said(string? sentence) => sentence is null ? null : "something was told here";
}
