using Cockpit.Core.Signal;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Session;

public sealed class KeyAnswerTests
{
    private static readonly Demo Demo = Demo.Of(7, "test");
    private readonly Fold _fold = new();
    private long _sequence;
    private double _now;

    public KeyAnswerTests() => Happen(new SessionOpened(Demo.Settings));

    [Fact]
    public void A_mark_without_a_satellite_is_refused_and_the_sentence_says_why()
    {
        Happen(new Ticked(), 1500.0);
        Snapshot pressed = Happen(new OperatorPressed(OperatorKey.Peaked), 0.1);
        Assert.Equal(new KeyAnswer(OperatorKey.Peaked, Taken: false, "Mark not taken: the satellite is not above the horizon."), pressed.Answer);
        Assert.Equal(pressed.Answer!.Words, pressed.Message!.Text);
        Assert.Equal(CueKind.Refused, Assert.Single(pressed.Cues.Started).Kind);
        Assert.Null(Happen(new Ticked(), 0.1).Answer);
    }

    [Fact]
    public void The_one_key_is_moved_while_nothing_else_is_asked() =>
        Assert.Equal(OperatorKey.Moved, Happen(new OperatorPressed(OperatorKey.OneKey), 0.5).Answer!.Key);

    [Fact]
    public void The_one_key_is_best_while_the_peak_is_searched()
    {
        Listen(3.0);
        Happen(new OperatorPressed(OperatorKey.Search), 0.1);
        Snapshot pressed = Happen(new OperatorPressed(OperatorKey.OneKey), 1.0);
        Assert.Equal((OperatorKey.Peaked, true), (pressed.Answer!.Key, pressed.Answer.Taken));
        Assert.Contains(Sounding(pressed), kind => kind == CueKind.Taken);
    }

    [Fact]
    public void The_one_key_is_seen_while_a_warning_sounds_and_moved_after_it()
    {
        Happen(new JournalChanged("no space left on the disk"), 0.1);
        Happen(new Ticked(), 0.1);
        Assert.Equal((OperatorKey.Acknowledge, true), Pressed(1.5));
        Assert.Equal(OperatorKey.Moved, Pressed(1.0).Key);
    }

    [Fact]
    public void Every_key_has_an_answer_and_a_sound_of_its_own()
    {
        Listen(3.0);
        foreach (OperatorKey key in Enum.GetValues<OperatorKey>())
        {
            Snapshot pressed = Happen(new OperatorPressed(key), 5.0);
            Assert.NotNull(pressed.Answer);
            Assert.NotEmpty(pressed.Answer.Words);
            Assert.NotEmpty(Sounding(pressed));
        }
    }

    [Fact]
    public void A_replay_of_the_journal_resolves_the_one_key_alike()
    {
        Fold again = new();
        List<KeyAnswer?> first = [];
        List<KeyAnswer?> second = [];
        Snapshot? before = null;
        SessionEvent[] events = [new SessionOpened(Demo.Settings), new Ticked(), new OperatorPressed(OperatorKey.OneKey), new JournalChanged("gone"), new Ticked(), new OperatorPressed(OperatorKey.OneKey)];
        for (int pass = 0; pass < 2; pass++)
        {
            for (int i = 0; i < events.Length; i++)
            {
                before = again.Step(new Envelope(i + 1, TimeSpan.FromSeconds(i), Demo.StartUtc.AddSeconds(i), "test", events[i]));
                (pass == 0 ? first : second).Add(before.Answer);
            }
        }

        Assert.Equal(first, second);
        Assert.Equal(2, first.Count(a => a is not null));
    }

    private (OperatorKey Key, bool Taken) Pressed(double after)
    {
        KeyAnswer answer = Happen(new OperatorPressed(OperatorKey.OneKey), after).Answer!;
        return (answer.Key, answer.Taken);
    }

    /// <summary>What sounds with the key, or after the word that it waits for.</summary>
    private List<CueKind> Sounding(Snapshot pressed)
    {
        List<CueKind> kinds = [.. pressed.Cues.Started.Select(c => c.Kind)];
        for (int i = 0; i < 18; i++) { kinds.AddRange(Happen(new Ticked(), 0.1).Cues.Started.Select(c => c.Kind)); }

        return kinds;
    }

    private void Listen(double seconds)
    {
        for (int i = 0; i < seconds * 10.0; i++) { Happen(new SignalMeasured("signal", new SignalSample { SnrDb = 9.0, Locked = true }), 0.1); }
    }

    private Snapshot Happen(SessionEvent happened, double after = 0.0)
    {
        _now += after;
        return _fold.Step(new Envelope(++_sequence, TimeSpan.FromSeconds(_now), Demo.StartUtc.AddSeconds(_now), "test", happened));
    }
}
