using System.Collections.Frozen;
using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>The one table of event types: what each is called in a journal.</summary>
/// <remarks>
/// A name is never given to something else, and what stands under it never changes its meaning: add a field with a default, or a new
/// version. A new event needs a line here, one in <see cref="JournalJson"/> and a sample in tests/data/events.
/// </remarks>
public static class EventTypes
{
    /// <summary>Every event type with its name and version.</summary>
    public static ImmutableArray<(string Name, Type Type)> All { get; } =
    [
        ("session.opened/2", typeof(SessionOpened)),
        ("session.closed/1", typeof(SessionClosed)),
        ("clock.ticked/1", typeof(Ticked)),
        ("clock.corrected/1", typeof(ClockCorrected)),
        ("clock.compared/1", typeof(ClockCompared)),
        ("operator.pressed/1", typeof(OperatorPressed)),
        ("head.turned/1", typeof(HeadTurned)),
        ("truth.recorded/1", typeof(TruthRecorded)),
        ("feed.connected/1", typeof(FeedConnected)),
        ("feed.lost/1", typeof(FeedLost)),
        ("feed.line-rejected/1", typeof(FeedLineRejected)),
        ("signal.measured/1", typeof(SignalMeasured)),
        ("feed.remarked/1", typeof(FeedRemarked)),
        ("feed.noted/1", typeof(FeedNoted)),
        ("receiver.tuned/1", typeof(ReceiverTuned)),
        ("place.fixed/1", typeof(PlaceFixed)),
        ("recording.watched/1", typeof(RecordingWatched)),
        ("picture.grew/1", typeof(PictureGrew)),
        ("speaker.changed/1", typeof(SpeakerChanged)),
        ("journal.changed/1", typeof(JournalChanged)),
        ("part.failed/1", typeof(PartFailed)),
        ("disk.measured/1", typeof(DiskMeasured)),
        ("pointing.measured/1", typeof(PointingMeasured)),
        ("direction.known/1", typeof(DirectionKnown)),
    ];

    /// <summary>Names that older journals hold and that are still read; what they hold in another shape is read by the converter of its type.</summary>
    public static ImmutableArray<(string Name, Type Type)> Earlier { get; } =
    [
        ("session.opened/1", typeof(SessionOpened)),
    ];

    private static readonly FrozenDictionary<Type, string> Names = All.ToFrozenDictionary(entry => entry.Type, entry => entry.Name);

    private static readonly FrozenDictionary<string, Type> Types = All.Concat(Earlier).ToFrozenDictionary(entry => entry.Name, entry => entry.Type, StringComparer.Ordinal);

    /// <summary>The name of a type with its version; null when it is not in the table.</summary>
    public static string? NameOf(Type type) => Names.GetValueOrDefault(type);

    /// <summary>The type behind a name; null when this program does not know it.</summary>
    public static Type? TypeOf(string name) => Types.GetValueOrDefault(name);
}
