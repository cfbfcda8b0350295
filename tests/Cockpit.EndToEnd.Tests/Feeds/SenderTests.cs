using Cockpit.Core.Signal;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Outlets;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

public sealed class SenderTests
{
    [Fact]
    public async Task A_sender_that_dies_and_comes_back_is_found_again_by_the_feed()
    {
        TcpServerOutlet outlet = new("", 0);
        SenderSettings settings = new() { LinesPerSecond = 50, RubbishShare = 0.2, Form = LineForm.Json, Away = new(TimeSpan.FromSeconds(0.6), TimeSpan.FromSeconds(0.2)) };
        LineScript script = new(settings);
        await using LineSender sender = new(outlet, _ => script.Next(new SignalSample { SnrDb = 7 }), settings, TimeProvider.System);
        sender.Open();
        using CancellationTokenSource stop = new();
        Task run = sender.RunAsync(stop.Token);
        EventWait events = new();
        await using (SignalFeeds.Started($"tcp://127.0.0.1:{outlet.Port}", events))
        {
            events.Next<SignalMeasured>();
            events.Next<FeedLineRejected>();
            events.Next<FeedLost>();
            events.Next<FeedConnected>();
            events.Next<SignalMeasured>();
        }

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => run);
    }

    [Fact]
    public async Task A_host_that_nobody_knows_is_told_in_one_sentence()
    {
        // A label of more than 63 letters is no name (RFC 1035, 2.3.4), so that no name server is asked.
        string name = new('x', 64);
        using CockpitProcess cockpit = new();
        (int code, string output, string error) = await cockpit.RunAsync("simulate", "signal", "--to", $"udp://{name}:5010", "--stop-after", "20s");
        Assert.Equal((1, ""), (code, output));
        Assert.Equal($"nothing takes the lines any more: the host {name} is not known", error.TrimEnd().Split('\n')[^1]);
        Assert.Equal(2, error.TrimEnd().Split('\n').Length);
    }

    // A second process, as in the field: its lines over UDP, each with its time of sending.
    [Fact]
    public async Task The_simulated_receiver_is_heard_as_a_process_of_its_own()
    {
        EventWait events = new();
        Devices.Ports.UdpPort port = new("", 0, TimeProvider.System);
        await using LineFeed feed = SignalFeeds.Started(port, events);
        using ProgramRun sender = ProgramRun.Start("simulate", "signal", "--to", $"udp://:{port.LocalEndPoint!.Port}", "--rate", "20", "--stamp");
        SignalSample sample = events.Next<SignalMeasured>().Sample;
        Assert.NotNull(sample.LevelDb);
        Assert.NotNull(sample.SnrDb);
        Assert.NotNull(sample.Utc);
        Assert.NotNull(sample.Locked);
    }
}
