using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>The level of a receiver and its tuning through the Hamlib network protocol: the real server, and one that does what no server should.</summary>
public sealed class RigFeedTests
{
    private static readonly Frequency Carrier = new(1_702_500_000);

    [RigServerFact]
    public async Task The_real_server_tells_its_level_five_times_a_second_and_is_tuned_when_that_is_wanted()
    {
        using RealServer server = await RealServer.StartAsync();
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"rig://{server.Place}", events);
        Assert.Equal($"rig {server.Place}", events.Next<FeedConnected>().Where);
        long start = Stopwatch.GetTimestamp();
        for (int k = 0; k < 6; k++)
        {
            Assert.InRange(events.Next<SignalMeasured>().Sample.LevelDb ?? 999, -60, 0);
        }

        Assert.InRange(Stopwatch.GetElapsedTime(start).TotalSeconds, 0.7, 10);

        EventWait tunings = new();
        await using RigTuner tuner = Tuner(server.Place);
        tuner.Start(tunings, TimeProvider.System);
        Assert.Equal(145_000_000, tunings.Next<ReceiverTuned>().Frequency.Hertz);
        tuner.Want(Carrier + new Frequency(38_123.4));
        tunings.Next<ReceiverTuned>(tuned => tuned.Frequency.Hertz == 1_702_538_123);

        // Less than 500 Hz is left alone; the server itself says where it is.
        tuner.Want(Carrier + new Frequency(38_500));
        Assert.Equal(1_702_538_123, tunings.Next<ReceiverTuned>().Frequency.Hertz);
    }

    [RigServerFact]
    public async Task The_real_server_is_understood_where_commands_want_the_name_of_a_VFO_and_when_it_comes_back()
    {
        int port;
        EventWait events = new();
        LineFeed feed;
        using (RealServer server = await RealServer.StartAsync("--vfo"))
        {
            port = server.Port;
            feed = SignalFeeds.Started($"rig://{server.Place}", events);
            events.Next<SignalMeasured>();
        }

        await using LineFeed _ = feed;
        events.Next<FeedLost>();
        using RealServer again = await RealServer.StartAsync("--vfo", port);
        events.Next<FeedConnected>();
        events.Next<SignalMeasured>();
    }

    [Fact]
    public async Task A_server_that_knows_no_VFO_question_answers_a_float_and_then_goes_silent_is_followed()
    {
        int levels = 0;
        await using RigServer server = new(command => command switch
        {
            "\\chk_vfo" => null,
            "+\\get_level STRENGTH" when Interlocked.Increment(ref levels) == 2 => null,
            "+\\get_level STRENGTH" => "get_level: STRENGTH\r\n-46.5\r\nRPRT 0\r\n",
            _ => "RPRT -1\n",
        });
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"rig://{server.Place}", events);
        Assert.Equal($"{server.Place} does not answer within 1 s; it is tried again", events.Next<FeedLost>().Reason);
        events.Level(-46.5);
        Assert.Equal($"{server.Place} does not answer within 1 s; it is tried again", events.Next<FeedLost>().Reason);
        events.Level(-46.5);
        Assert.Equal("\\chk_vfo", Assert.Single(server.Commands, command => command.Contains("vfo", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("get_level: STRENGTH\nRPRT -11\n", "has no signal meter; take the level from the recording or from another program")]
    [InlineData("get_level: STRENGTH\nRPRT -4\n", "has no signal meter; take the level from the recording or from another program")]
    [InlineData("get_level: STRENGTH\nRPRT -6\n", "cannot tell the level (error -6); see that the receiver behind it is on")]
    [InlineData("RPRT -1\n", "does not answer as a rig server does, in the extended form of the Hamlib network protocol; it is tried again")]
    [InlineData("-46\n", "does not answer as a rig server does, in the extended form of the Hamlib network protocol; it is tried again")]
    [InlineData("get_freq:\nFrequency: 1\nRPRT 0\n", "does not answer as a rig server does, in the extended form of the Hamlib network protocol; it is tried again")]
    [InlineData("get_level: STRENGTH\nRPRT x\n", "ends an answer without a number; it is tried again")]
    [InlineData("", "closed the connection; it is tried again")]
    public async Task An_answer_that_is_no_level_is_told(string answer, string sentence)
    {
        await using RigServer server = new(command => command is "\\chk_vfo" ? "0\n" : answer);
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"rig://{server.Place}", events);
        Assert.EndsWith($"{server.Place} {sentence}", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        Assert.Equal(0, feed.Counts.Measured);
    }

    [Fact]
    public async Task Answers_without_end_lines_without_end_and_words_nobody_asked_for_end_the_connection()
    {
        int turn = 0;
        await using RigServer server = new(command => command is "\\chk_vfo" ? "ChkVFO: 0\n" : Interlocked.Increment(ref turn) switch
        {
            1 => "get_level: STRENGTH\n" + string.Concat(Enumerable.Repeat("more: 1\n", 700)),
            2 => new string('x', 9000),
            3 => "get_level: STRENGTH\n-46\nRPRT 0\nget_level: STRENGTH\n-99\nRPRT 0\n",
            _ => "get_level: STRENGTH\n-47\nRPRT 0\n",
        });
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"rig://{server.Place}", events);
        Assert.Equal($"{server.Place} answers without an end; it is tried again", events.Next<FeedLost>().Reason);
        Assert.Equal($"{server.Place} answers with a line that does not end; it is tried again", events.Next<FeedLost>().Reason);
        events.Level(-46);
        Assert.Equal($"{server.Place} says more than it was asked; it is tried again", events.Next<FeedLost>().Reason);
        events.Level(-47);
    }

    [Fact]
    public async Task Tuning_sets_at_most_twice_a_second_only_what_is_far_enough_off_and_nothing_that_no_orbit_can_shift()
    {
        long tuned = 1_702_500_000;
        await using RigServer server = new(command =>
        {
            if (command.StartsWith("+\\set_freq ", StringComparison.Ordinal))
            {
                Volatile.Write(ref tuned, long.Parse(command["+\\set_freq ".Length..], CultureInfo.InvariantCulture));
                return $"{command[2..].Replace(" ", ": ", StringComparison.Ordinal)}\nRPRT 0\n";
            }

            return command is "\\chk_vfo" ? "0\n" : $"get_freq:\nFrequency: {Volatile.Read(ref tuned)}\nRPRT 0\n";
        });
        EventWait events = new();
        await using RigTuner tuner = Tuner(server.Place);
        tuner.Start(events, TimeProvider.System);
        events.Next<FeedConnected>();
        tuner.Want(new Frequency(-5));
        await Task.Delay(700, CancellationToken.None);
        tuner.Want(Carrier + new Frequency(126_000));
        await Task.Delay(700, CancellationToken.None);
        Assert.DoesNotContain(server.Commands, IsTuning);

        // Wanted anew every 20 ms and a kilohertz further: two commands a second all the same.
        long start = Stopwatch.GetTimestamp();
        for (int k = 1; k <= 75; k++)
        {
            tuner.Want(Carrier + new Frequency(1000 * k));
            await Task.Delay(20, CancellationToken.None);
        }

        int most = (int)(Stopwatch.GetElapsedTime(start).TotalSeconds * 2) + 1;
        Assert.InRange(server.Commands.Count(IsTuning), 1, most);
        events.Next<ReceiverTuned>(e => e.Frequency.Hertz == 1_702_575_000);
        int before = server.Commands.Count(IsTuning);
        tuner.Want(Carrier + new Frequency(75_499));
        await Task.Delay(1200, CancellationToken.None);
        tuner.Want(null);
        Assert.Equal(before, server.Commands.Count(IsTuning));
        Assert.All(server.Commands, command => Assert.DoesNotContain("-", command, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_receiver_that_does_not_take_the_frequency_is_told()
    {
        await using RigServer server = new(command => command is "\\chk_vfo" ? "0\n"
            : command.StartsWith("+\\set_freq", StringComparison.Ordinal) ? "set_freq: 1702510000\nRPRT -9\n"
            : "get_freq:\nFrequency: 145000000\nRPRT 0\n");
        EventWait events = new();
        await using RigTuner tuner = Tuner(server.Place);
        tuner.Want(Carrier + new Frequency(10_000));
        tuner.Start(events, TimeProvider.System);
        Assert.Equal($"rig {server.Place} does not take 1702510000 Hz (error -9); it is tried again", events.Next<FeedLost>().Reason);
    }

    // BRACKWING 5 comes with 6.5 km/s at that moment: 36.9 kHz at 1701.3 MHz (cockpit look prints 36869 Hz five seconds later).
    [RigServerFact]
    public async Task A_session_steers_by_the_level_of_the_real_server_and_tunes_it_when_told_to()
    {
        using RealServer server = await RealServer.StartAsync();
        using CockpitProcess cockpit = new();
        (int code, string output, string error) = await cockpit.RunAsync(
            cockpit.Live("--frequency", "1701.3MHz", "--signal", $"rig://{server.Place}", "--tune", $"rig://{server.Place}", "--stop-after", "5s"));
        Assert.True(code == 0, error);
        Assert.Contains("signal:good tune:good", output, StringComparison.Ordinal);
        EventWait events = new();
        await using RigTuner reader = Tuner(server.Place);
        reader.Start(events, TimeProvider.System);
        Assert.InRange(events.Next<ReceiverTuned>().Frequency.Hertz, 1_701_336_300, 1_701_337_500);
    }

    [Fact]
    public async Task Nothing_is_tuned_that_was_not_told_to_and_no_carrier_is_guessed()
    {
        await using RigServer server = new(command => command is "\\chk_vfo" ? "0\n" : "get_level: STRENGTH\n-40\nRPRT 0\n");
        using CockpitProcess cockpit = new();
        (int code, _, string error) = await cockpit.RunAsync(cockpit.Live("--tune", $"rig://{server.Place}"));
        Assert.Equal((2, "--tune: give the carrier as the satellite sends it too, like --frequency 1701.3MHz"), (code, error.Trim()));
        (code, _, error) = await cockpit.RunAsync(cockpit.Live("--frequency", "1701.3MHz", "--signal", $"rig://{server.Place}", "--stop-after", "3s"));
        Assert.True(code == 0, error);
        Assert.Contains("+\\get_level STRENGTH", server.Commands);
        Assert.DoesNotContain(server.Commands, IsTuning);
    }

    private static bool IsTuning(string command) => command.Contains("set_freq", StringComparison.Ordinal);

    private static RigTuner Tuner(string place) => new(RigAddress.Read("rig://" + place, "--tune").Value!, "tune", Carrier);

    /// <summary>rigctld with its dummy rig.</summary>
    private sealed class RealServer : IDisposable
    {
        private readonly Process _process;

        private RealServer(Process process, int port)
        {
            _process = process;
            Port = port;
        }

        public int Port { get; }

        public string Place => $"127.0.0.1:{Port}";

        public static async Task<RealServer> StartAsync(string? option = null, int port = 0)
        {
            port = port == 0 ? FreePort() : port;
            string[] words = ["-m", "1", "-T", "127.0.0.1", "-t", port.ToString(CultureInfo.InvariantCulture), .. option is null ? Array.Empty<string>() : [option]];
            Process process = Process.Start(new ProcessStartInfo("rigctld", words) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true })!;
            process.OutputDataReceived += (_, _) => { };
            process.ErrorDataReceived += (_, _) => { };
            process.BeginOutputReadLine();
            process.BeginErrorReadLine();
            for (int tries = 0; tries < 100; tries++)
            {
                using TcpClient probe = new();
                try
                {
                    await probe.ConnectAsync(IPAddress.Loopback, port);
                    return new RealServer(process, port);
                }
                catch (SocketException)
                {
                    await Task.Delay(100, CancellationToken.None);
                }
            }

            process.Kill();
            throw new InvalidOperationException("rigctld did not open its port within 10 s");
        }

        public void Dispose()
        {
            _process.Kill();
            _process.WaitForExit();
            _process.Dispose();
        }

        private static int FreePort()
        {
            using TcpListener probe = new(IPAddress.Loopback, 0);
            probe.Start();
            return ((IPEndPoint)probe.LocalEndpoint).Port;
        }
    }
}
