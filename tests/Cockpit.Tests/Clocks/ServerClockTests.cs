using System.Buffers.Binary;
using System.Net;
using System.Net.Sockets;
using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Clocks;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using Cockpit.Tests.Feeds;
using Cockpit.Tests.Journal;

namespace Cockpit.Tests.Clocks;

public sealed class ServerClockTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly Fold _fold = new();
    private readonly DateTimeOffset _start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
    private long _sequence;

    // A server on loopback whose clock is 3.5 s ahead of ours.
    [Fact]
    public async Task A_server_that_is_ahead_shows_that_this_clock_is_behind()
    {
        using UdpClient server = new(new IPEndPoint(IPAddress.Loopback, 0));
        int port = ((IPEndPoint)server.Client.LocalEndPoint!).Port;
        using CancellationTokenSource stop = new();
        Task serving = ServeAsync(server, TimeSpan.FromSeconds(3.5), stop.Token);
        SeenEvents seen = new();
        await using (new ServerClock(new TimeServerText("127.0.0.1", port), seen, TimeProvider.System))
        {
            ClockCompared compared = await seen.First<ClockCompared>(_ => true, Patience);
            Assert.Equal(3.5, compared.Behind!.Value.TotalSeconds, 0.5);
            Assert.Equal($"127.0.0.1:{port}", compared.Against);
        }

        await stop.CancelAsync();
        await serving;
    }

    [Fact]
    public async Task Nobody_there_is_told_in_words()
    {
        using UdpClient silent = new(new IPEndPoint(IPAddress.Loopback, 0));
        SeenEvents seen = new();
        await using ServerClock clock = new(new TimeServerText("127.0.0.1", ((IPEndPoint)silent.Client.LocalEndPoint!).Port), seen, TimeProvider.System);
        Assert.Equal("the time server does not answer", (await seen.First<ClockCompared>(_ => true, Patience)).Trouble);
    }

    [Fact]
    public void A_wrong_clock_is_a_caution_until_it_is_corrected()
    {
        Step(0, EventSamples.All.OfType<SessionOpened>().Single() with { Settings = EventSamples.All.OfType<SessionOpened>().Single().Settings with { Feeds = [] } });
        Snapshot snapshot = Step(1, new ClockCompared("192.0.2.1", TimeSpan.FromSeconds(2.34), TimeSpan.FromSeconds(0.02), null));
        Assert.Equal(("the clock is 2.3 s behind 192.0.2.1: C corrects the predictions", MessageWeight.Caution), (snapshot.Message!.Text, snapshot.Message.Weight));
        snapshot = Step(2, new ClockCorrected(TimeSpan.FromSeconds(2.34), "by 192.0.2.1, as the operator asked"));
        Assert.False(snapshot.Desk.Clock!.IsWrong);
        Assert.StartsWith("clock corrected by +2.34 s", snapshot.Message!.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.9, 0.01)]
    [InlineData(2.0, 2.5)]
    public void A_small_difference_or_a_doubtful_one_is_none(double behind, double doubt)
    {
        Step(0, EventSamples.All.OfType<SessionOpened>().Single());
        Assert.False(Step(1, new ClockCompared("192.0.2.1", TimeSpan.FromSeconds(behind), TimeSpan.FromSeconds(doubt), null)).Desk.Clock!.IsWrong);
    }

    // The server is asked again every ten minutes: what was corrected since must not be told, and corrected, a second time.
    [Fact]
    public void After_a_correction_the_same_comparison_again_is_no_caution()
    {
        Step(0, EventSamples.All.OfType<SessionOpened>().Single());
        ClockCompared compared = new("192.0.2.1", TimeSpan.FromSeconds(2.34), TimeSpan.FromSeconds(0.02), null);
        Step(1, compared);
        Step(2, new ClockCorrected(TimeSpan.FromSeconds(2.34), "by 192.0.2.1, as the operator asked"));
        Snapshot snapshot = Step(3, compared);
        Assert.Equal((TimeSpan.Zero, false), (snapshot.Desk.Clock!.Behind, snapshot.Desk.Clock.IsWrong));
        Assert.Equal(0.5, Step(4, compared with { Behind = TimeSpan.FromSeconds(2.84) }).Desk.Clock!.Behind.TotalSeconds, 9);
    }

    [Fact]
    public void Of_several_clocks_the_least_doubtful_counts_whatever_came_last()
    {
        Step(0, EventSamples.All.OfType<SessionOpened>().Single());
        Step(1, new ClockCompared("the times of signal", TimeSpan.FromSeconds(3.0), TimeSpan.FromSeconds(0.9), null));
        Step(2, new ClockCompared("192.0.2.1", TimeSpan.FromSeconds(0.1), TimeSpan.FromSeconds(0.02), null));
        Snapshot snapshot = Step(3, new ClockCompared("the times of signal", TimeSpan.FromSeconds(3.1), TimeSpan.FromSeconds(0.9), null));
        Assert.Equal(("192.0.2.1", false), (snapshot.Desk.Clock!.Against, snapshot.Desk.Clock.IsWrong));
    }

    [Fact]
    public void The_key_does_not_correct_by_less_than_the_comparison_may_be_off()
    {
        Step(0, EventSamples.All.OfType<SessionOpened>().Single());
        Step(1, new ClockCompared("the navigation satellites", TimeSpan.FromSeconds(0.3), TimeSpan.FromSeconds(0.8), null));
        Snapshot snapshot = Step(2, new OperatorPressed(OperatorKey.CorrectClock));
        Assert.Equal((false, "the clock agrees with the navigation satellites within 0.8 s: nothing to correct"), (snapshot.Answer!.Taken, snapshot.Answer.Words));
    }

    private static async Task ServeAsync(UdpClient server, TimeSpan ahead, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                UdpReceiveResult asked = await server.ReceiveAsync(stop);
                DateTimeOffset now = TimeProvider.System.GetUtcNow() + ahead;
                byte[] answer = SntpMessageTests.Answer(now, now, mark: BinaryPrimitives.ReadUInt64BigEndian(asked.Buffer.AsSpan(40)));
                await server.SendAsync(answer, asked.RemoteEndPoint, stop);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    private Snapshot Step(double seconds, SessionEvent happened)
    {
        TimeSpan elapsed = TimeSpan.FromSeconds(seconds);
        return _fold.Step(new Envelope(++_sequence, elapsed, _start + elapsed, Sources.Clock, happened));
    }
}
