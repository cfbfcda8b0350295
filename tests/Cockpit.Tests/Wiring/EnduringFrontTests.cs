using Cockpit.Screen.Keys;
using Cockpit.Session.Review;
using Cockpit.Session.State;
using Cockpit.Wiring;

namespace Cockpit.Tests.Wiring;

public sealed class EnduringFrontTests
{
    private const int HangUp = 129;
    private const int Terminated = 143;

    [Fact]
    public void When_the_first_front_is_lost_the_second_goes_on()
    {
        Front second = new(_ => 0);
        using EnduringFront front = new(new Front(_ => HangUp), code => code == HangUp ? second : null);
        Assert.Equal(HangUp, front.Run(null, CancellationToken.None));
        Assert.True(second.Ran);
    }

    [Fact]
    public void When_the_first_front_ends_in_order_the_session_is_over()
    {
        using EnduringFront front = new(new Front(_ => 0), code => code == HangUp ? throw new InvalidOperationException("not lost") : null);
        Assert.Equal(0, front.Run(null, CancellationToken.None));
    }

    [Fact]
    public void A_stop_that_comes_while_the_first_front_closes_counts()
    {
        EnduringFront? front = null;
        Front second = new(self => self.Stopped ?? throw new InvalidOperationException("it would run on"));
        front = new EnduringFront(
            new Front(_ =>
            {
                front!.Stop(Terminated);
                return HangUp;
            }),
            _ => second);
        using (front)
        {
            Assert.Equal(Terminated, front.Run(null, CancellationToken.None));
        }
    }

    [Fact]
    public void A_stop_that_comes_while_the_second_is_sought_counts()
    {
        EnduringFront? front = null;
        Front second = new(self => self.Stopped ?? throw new InvalidOperationException("it would run on"));
        front = new EnduringFront(new Front(_ => HangUp), _ =>
        {
            front!.Stop(Terminated);
            return second;
        });
        using (front)
        {
            Assert.Equal(Terminated, front.Run(null, CancellationToken.None));
        }
    }

    [Fact]
    public async Task Of_many_stops_at_once_the_front_keeps_one_code()
    {
        for (int round = 0; round < 200; round++)
        {
            using PlainFront front = new(TextWriter.Null);
            using Barrier together = new(4);
            int[] before = await Task.WhenAll(Enumerable.Range(1, 4).Select(code => Task.Run(() =>
            {
                together.SignalAndWait();
                front.Stop(code);
                return front.Run(TimeSpan.Zero, CancellationToken.None);
            })));
            Assert.Single(before.Distinct());
        }
    }

    private sealed class Front(Func<Front, int> run) : ISessionFront
    {
        public Action<KeyAction>? KeyPressed { get; set; }

        public Action<long>? Painted { get; set; }

        public Action<string>? Failed { get; set; }

        public int? Stopped { get; private set; }

        public bool Ran { get; private set; }

        public void Show(Snapshot snapshot)
        {
        }

        public void ShowReview(SessionReview review)
        {
        }

        public void ShowPairing(string? address, bool asked)
        {
        }

        public void Bell()
        {
        }

        public void Stop(int exitCode) => Stopped ??= exitCode;

        public int Run(TimeSpan? atMost, CancellationToken cancellation)
        {
            Ran = true;
            return run(this);
        }

        public void Dispose()
        {
        }
    }
}
