using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Session.State;

/// <summary>Everything that screen, cues and tests see of one moment; immutable, a pure function of the events so far.</summary>
/// <param name="Sequence">Sequence number of the event it follows.</param>
/// <param name="Utc">Session time of that event, UTC.</param>
/// <param name="Elapsed">Monotonic session time of that event.</param>
/// <param name="Settings">What the session is about; null before the first event.</param>
/// <param name="Sky">Where the satellite is; null without settings or when no pass was found.</param>
/// <param name="Link">Doppler, expected and measured level.</param>
/// <param name="Aim">Where the dish is and where it must go.</param>
/// <param name="Feeds">Health of the feeds.</param>
/// <param name="Desk">Sound, journal, operator's switches.</param>
/// <param name="Message">The one line of messages.</param>
/// <param name="Cues">What should sound.</param>
/// <param name="Picture">The picture as it grows; null before its first line.</param>
/// <param name="Answer">What became of the key of this event; null when it is none.</param>
/// <param name="Readiness">Whether everything is ready; null from AOS on, and without a pass.</param>
/// <param name="Sensor">What the sensor on the dish says; null where none was heard.</param>
public sealed record Snapshot(
    long Sequence,
    DateTimeOffset Utc,
    TimeSpan Elapsed,
    SessionSettings? Settings,
    SkyNow? Sky,
    LinkNow Link,
    AimNow Aim,
    ImmutableArray<FeedNow> Feeds,
    DeskNow Desk,
    Message? Message,
    CuePlan Cues,
    PictureNow? Picture = null,
    KeyAnswer? Answer = null,
    ReadinessNow? Readiness = null,
    SensorNow? Sensor = null);
