using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Session;

public sealed class SessionBusTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Events_are_numbered_without_gaps_and_dated_from_the_session_clock()
    {
        ManualClock clock = new();
        using SessionBus bus = new(clock, Start);
        List<Envelope> seen = [];
        using IDisposable subscription = bus.Subscribe("test", seen.Add);

        bus.Publish("a", new Ticked());
        clock.Elapsed = TimeSpan.FromSeconds(1.5);
        bus.Publish("b", new Ticked());

        Assert.Equal([1L, 2L], seen.Select(e => e.Sequence));
        Assert.Equal(Start.AddSeconds(1.5), seen[1].Utc);
        Assert.Equal("b", seen[1].Source);
    }

    [Fact]
    public void Elapsed_time_never_goes_back_even_if_the_clock_does()
    {
        ManualClock clock = new() { Elapsed = TimeSpan.FromSeconds(5) };
        using SessionBus bus = new(clock, Start);
        List<Envelope> seen = [];
        using IDisposable subscription = bus.Subscribe("test", seen.Add);

        bus.Publish("a", new Ticked());
        clock.Elapsed = TimeSpan.FromSeconds(4);
        bus.Publish("a", new Ticked());

        Assert.Equal(TimeSpan.FromSeconds(5), seen[1].Elapsed);
    }

    [Fact]
    public void A_clock_correction_moves_utc_from_its_own_event_on_and_elapsed_not_at_all()
    {
        ManualClock clock = new();
        using SessionBus bus = new(clock, Start);
        List<Envelope> seen = [];
        using IDisposable subscription = bus.Subscribe("test", seen.Add);

        bus.Publish("a", new Ticked());
        bus.Publish("a", new ClockCorrected(TimeSpan.FromSeconds(2), "a better clock"));

        Assert.Equal(Start, seen[0].Utc);
        Assert.Equal(Start.AddSeconds(2), seen[1].Utc);
        Assert.Equal(seen[0].Elapsed, seen[1].Elapsed);
    }

    [Fact]
    public void A_subscriber_that_throws_is_named_once_and_called_again_and_the_others_go_on()
    {
        using SessionBus bus = new(new ManualClock(), Start);
        List<Envelope> seen = [];
        int calls = 0;
        using IDisposable bad = bus.Subscribe("bad part", _ =>
        {
            calls++;
            throw new InvalidOperationException("boom");
        });
        using IDisposable good = bus.Subscribe("good part", seen.Add);

        bus.Publish("a", new Ticked());
        bus.Publish("a", new Ticked());

        Assert.Equal(3, calls);
        PartFailed failure = Assert.IsType<PartFailed>(seen[1].Event);
        Assert.Equal("bad part", failure.Part);
        Assert.Equal([1L, 2L, 3L], seen.Select(e => e.Sequence));
    }

    [Fact]
    public void An_event_published_from_inside_a_subscriber_comes_after_the_present_one_for_everybody()
    {
        using SessionBus bus = new(new ManualClock(), Start);
        List<long> first = [];
        List<long> second = [];
        using IDisposable a = bus.Subscribe("first", e =>
        {
            first.Add(e.Sequence);
            if (e.Sequence == 1)
            {
                bus.Publish("first", new Ticked());
            }
        });
        using IDisposable b = bus.Subscribe("second", e => second.Add(e.Sequence));

        bus.Publish("a", new Ticked());

        Assert.Equal([1L, 2L], first);
        Assert.Equal([1L, 2L], second);
    }

    [Fact]
    public void The_last_event_reaches_everybody_and_what_comes_after_it_nobody()
    {
        using SessionBus bus = new(new ManualClock(), Start);
        List<SessionEvent> seen = [];
        using IDisposable late = bus.Subscribe("late", e => bus.Publish("late", new Ticked()));
        using IDisposable subscription = bus.Subscribe("test", e => seen.Add(e.Event));
        bus.PublishLast("program", new SessionClosed("done"));
        bus.Publish("a", new Ticked());
        Assert.Equal([new SessionClosed("done")], seen);
    }

    // The order ends while another thread is in the middle of handing on an event.
    [Fact]
    public void Ending_the_order_under_a_delivery_harms_neither()
    {
        for (int round = 0; round < 50; round++)
        {
            SessionBus bus = new(new ManualClock(), Start);
            using ManualResetEventSlim inside = new();
            List<SessionEvent> seen = [];
            using IDisposable first = bus.Subscribe("first", _ => inside.Set());
            using IDisposable second = bus.Subscribe("second", e => seen.Add(e.Event));
            Exception? thrown = null;
            Thread publisher = new(() => thrown = Record.Exception(() => bus.Publish("a", new Ticked()))) { IsBackground = true };
            publisher.Start();
            inside.Wait(CancellationToken.None);
            bus.Dispose();
            publisher.Join();
            Assert.Null(thrown);
            Assert.Equal([new Ticked()], seen);
        }
    }

    [Fact]
    public void A_local_time_is_refused() =>
        Assert.Throws<ArgumentException>(() => new SessionBus(new ManualClock(), new DateTimeOffset(2026, 11, 25, 10, 0, 0, TimeSpan.FromHours(1))));
}
