using Cockpit.Devices.Recordings;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Cockpit.Tests.Computers;
using Cockpit.Wiring;

namespace Cockpit.Tests.Wiring;

public sealed class RecordingNotesTests
{
    [Fact]
    public void A_pass_is_noted_from_rise_to_set_with_the_keys_that_were_taken()
    {
        RecordingMarks marks = new();
        RecordingNotes notes = new(marks);
        Snapshot now = new VirtualPass().Measure(new() { SnrDb = 9 });
        notes.Follow(In(now, PassPhase.Ready));
        Assert.Null(marks.Pass);
        notes.Follow(In(now, PassPhase.Climbing));
        Assert.StartsWith("PETREL 2, highest 60 degrees at 2026-11-25T10:2", marks.Pass, StringComparison.Ordinal);
        Assert.Equal("AOS", Taken(marks));
        notes.Follow(In(now, PassPhase.Climbing) with { Answer = new KeyAnswer(OperatorKey.Peaked, true, "taken: best") });
        Assert.Equal("best", Taken(marks));
        notes.Follow(In(now, PassPhase.Climbing) with { Answer = new KeyAnswer(OperatorKey.Moved, false, "nothing is called") });
        notes.Follow(In(now, PassPhase.Climbing) with { Answer = new KeyAnswer(OperatorKey.Louder, true, "volume +3 dB") });
        Assert.Null(Taken(marks));
        notes.Follow(In(now, PassPhase.Sinking));
        Assert.Equal("TCA", Taken(marks));
        notes.Follow(In(now, PassPhase.Over));
        Assert.Equal("LOS", Taken(marks));
        Assert.Null(marks.Pass);
    }

    [Fact]
    public void A_session_that_begins_in_the_pass_has_not_seen_it_rise()
    {
        RecordingMarks marks = new();
        new RecordingNotes(marks).Follow(In(new VirtualPass().Measure(new() { SnrDb = 9 }), PassPhase.Climbing));
        Assert.Null(Taken(marks));
        Assert.NotNull(marks.Pass);
    }

    private static Snapshot In(Snapshot now, PassPhase phase) => now with { Answer = null, Sky = now.Sky! with { Phase = phase } };

    private static string? Taken(RecordingMarks marks) => marks.TryTake(out (string Label, string Comment) mark) ? mark.Label : null;
}
