using System.Collections.Immutable;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using CsCheck;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Journal;

public sealed class PlayerTests : IDisposable
{
    // Ticks at 0.1, 0.2, ... 10.0 s.
    private static readonly ImmutableArray<Envelope> Session = [.. Enumerable.Range(1, 100).Select(Journals.Tick)];

    private readonly FakeTimeProvider _time = new();
    private readonly List<long> _played = [];
    private readonly Player _player;
    private int _restarts;

    public PlayerTests() => _player = new Player(Session, _time, envelope => _played.Add(envelope.Sequence), Restarted);

    public void Dispose() => _player.Dispose();

    [Fact]
    public void Each_event_is_played_at_its_time_and_as_it_was()
    {
        List<Envelope> played = [];
        using Player player = new(Session, _time, played.Add, () => { });
        Assert.True(player.IsPaused);
        player.Resume();
        for (int i = 0; i < 100; i++)
        {
            Assert.Equal(Session[..i], played);
            _time.Advance(TimeSpan.FromMilliseconds(100));
        }

        Assert.Equal(Session, played);
        Assert.True(player.IsAtEnd);
        Assert.Equal(TimeSpan.FromSeconds(10), player.Length);
        _time.Advance(TimeSpan.FromSeconds(5));
        Assert.Equal(player.Length, player.Position);
    }

    [Theory]
    [InlineData(0.25, 2)]
    [InlineData(1, 10)]
    [InlineData(4, 40)]
    [InlineData(64, 100)]
    [InlineData(0.001, 2)]
    [InlineData(1000, 100)]
    public void The_rate_holds_within_its_limits(double rate, int eventsInOneSecond)
    {
        _player.Rate = rate;
        _player.Resume();
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal(eventsInOneSecond, _played.Count);
        Assert.InRange(_player.Rate, Player.SlowestRate, Player.FastestRate);
    }

    [Fact]
    public void A_pause_and_a_new_rate_keep_the_position()
    {
        _player.Resume();
        Seconds(1);
        _player.Pause();
        Seconds(100);
        Assert.Equal(TimeSpan.FromSeconds(1), _player.Position);
        Assert.Equal(10, _played.Count);
        _player.Rate = 2;
        Assert.True(_player.IsPaused);
        _player.Resume();
        Seconds(1);
        Assert.Equal(TimeSpan.FromSeconds(3), _player.Position);
        _player.Rate = 0.5;
        Seconds(2);
        Assert.Equal(TimeSpan.FromSeconds(4), _player.Position);
        Assert.Equal(40, _played.Count);
    }

    [Fact]
    public void A_jump_forwards_plays_all_between_at_once_and_goes_on_from_there()
    {
        _player.Resume();
        Seconds(1);
        _player.JumpTo(TimeSpan.FromSeconds(5));
        Assert.Equal(Numbers(50), _played);
        Seconds(1);
        Assert.Equal(Numbers(60), _played);
        Assert.Equal(0, _restarts);
    }

    [Fact]
    public void A_jump_backwards_begins_anew_and_plays_up_to_the_time()
    {
        _player.JumpTo(TimeSpan.FromSeconds(5));
        _player.JumpTo(TimeSpan.FromSeconds(2));
        Assert.Equal(1, _restarts);
        Assert.Equal(Numbers(20), _played);
        Seconds(5);
        Assert.Equal(Numbers(20), _played);
        _player.JumpTo(TimeSpan.FromSeconds(-1));
        Assert.Empty(_played);
        _player.JumpTo(TimeSpan.FromHours(1));
        Assert.Equal(Numbers(100), _played);
        Assert.True(_player.IsAtEnd);
        Assert.Equal(2, _restarts);
    }

    [Fact]
    public void From_the_end_one_can_go_back_and_play_again()
    {
        _player.Resume();
        Seconds(20);
        _player.JumpTo(TimeSpan.FromSeconds(9));
        Assert.Equal(Numbers(90), _played);
        Seconds(1);
        Assert.Equal(Numbers(100), _played);
    }

    [Fact]
    public void Whoever_takes_an_event_may_pause_and_after_the_end_nothing_is_played()
    {
        List<long> played = [];
        Player? player = null;
        player = new Player(Session, _time, envelope =>
        {
            played.Add(envelope.Sequence);
            if (envelope.Sequence == 7)
            {
                player!.Pause();
            }
        }, () => { });
        player.Resume();
        Seconds(0.7);
        Seconds(3);
        Assert.Equal(Numbers(7), played);
        player.Resume();
        Seconds(0.1);
        Assert.Equal(Numbers(8), played);
        player.Dispose();
        Seconds(5);
        player.JumpTo(TimeSpan.Zero);
        Assert.Equal(Numbers(8), played);
    }

    // Whatever is done on the way, the fold has always been given the events up to the position, each once, in order.
    [Fact]
    public void However_it_is_steered_what_was_played_is_the_beginning_of_the_session() =>
        Gen.Select(Gen.Int[0, 4], Gen.Int[0, 12_000]).Array[1, 40].Sample(steps =>
        {
            List<long> played = [];
            FakeTimeProvider time = new();
            using Player player = new(Session, time, envelope => played.Add(envelope.Sequence), played.Clear);
            foreach ((int step, int amount) in steps)
            {
                Do(step, amount, player, time);
                int due = Session.Count(envelope => envelope.Elapsed <= player.Position);

                // A timer wakes up to a millisecond late, so the very last event may still be to come.
                if (!played.SequenceEqual(Numbers(played.Count)) || played.Count > due || played.Count < due - 1)
                {
                    return false;
                }
            }

            return true;
        });

    private static void Do(int step, int amount, Player player, FakeTimeProvider time)
    {
        switch (step)
        {
            case 0: player.Resume(); break;
            case 1: player.Pause(); break;
            case 2: player.Rate = amount / 100.0; break;
            case 3: player.JumpTo(TimeSpan.FromMilliseconds(amount)); break;
            default: time.Advance(TimeSpan.FromMilliseconds(amount / 10)); break;
        }
    }

    private static IEnumerable<long> Numbers(int count) => Enumerable.Range(1, count).Select(number => (long)number);

    private void Seconds(double seconds) => _time.Advance(TimeSpan.FromSeconds(seconds));

    private void Restarted()
    {
        _restarts++;
        _played.Clear();
    }

    // A timer of the system takes no more than 49 days; a wild session can have a longer gap.
    [Fact]
    public void A_gap_of_many_days_is_waited_for_and_not_refused()
    {
        List<Envelope> played = [];
        using Player player = new([Journals.Tick(1), Journals.Tick(864_000_000)], TimeProvider.System, played.Add, () => { });
        player.JumpTo(TimeSpan.FromSeconds(1));
        player.Resume();
        Assert.Single(played);
        player.JumpTo(player.Length);
        Assert.Equal(2, played.Count);
    }
}
