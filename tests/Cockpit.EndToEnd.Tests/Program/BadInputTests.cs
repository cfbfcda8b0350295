using System.Net;
using System.Net.Sockets;
using Cockpit.Commands;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>What the program answers to wrong words and wrong files: one sentence, a code that is not zero, nothing written.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-bad-");

    private static readonly string[] Brackwing =
    [
        "BRACKWING 5",
        "1 99129U 26014A   26329.02321816  .00000043  00000-0  10514-3 0  7313",
        "2 99129  98.8186 153.7539 0005269 308.7134  69.4194 14.12592518451565",
    ];

    [Fact]
    public async Task A_missing_elements_file_is_named() =>
        Assert.Equal("nowhere.tle: there is no such file; give the path of a TLE or OMM file with --elements", await LiveAsync("nowhere.tle"));

    [Fact]
    public async Task An_empty_elements_file_is_named()
    {
        string file = FileWith("");
        Assert.Equal($"{file}: the input is empty; expected element sets, TLE or OMM", await LiveAsync(file));
    }

    [Fact]
    public async Task A_binary_elements_file_is_named_with_line_and_column()
    {
        string file = FileWith("P\u0001\u0002");
        Assert.Equal($"{file}:1:2: byte 0x01 found: this is not text; expected a file of element sets, TLE or OMM", await LiveAsync(file));
    }

    [Fact]
    public async Task A_wrong_checksum_is_named_with_line_and_column()
    {
        string file = FileWith(string.Join('\n', Brackwing[0], Brackwing[1][..68] + "9", Brackwing[2]));
        Assert.Equal($"{file}:2:69: the checksum of line 1 is '9', expected 3; a character was changed, get the element set again", await LiveAsync(file));
    }

    [Fact]
    public async Task Wrong_columns_are_named_with_line_and_column()
    {
        string file = FileWith(string.Join('\n', Brackwing[0], Brackwing[1].Replace("26329.02321816", "2632902321816 ", StringComparison.Ordinal), Brackwing[2]));
        Assert.Equal($"{file}:2:24: epoch day: '0' stands where the decimal point is expected", await LiveAsync(file));
    }

    [Theory]
    [InlineData("95,11.2", "latitude 95 is outside -90 to 90;")]
    [InlineData("47.8", "'47.8' is not a station;")]
    [InlineData("47.8,300", "longitude 300 is outside -180 to 180 (west is negative);")]
    [InlineData("here", "'here' is not a station;")]
    public async Task A_station_out_of_range_or_malformed_is_named(string station, string fault) => Assert.Equal(
        $"--station: {fault} write the station as LAT,LON[,ALT_M] in degrees and metres, like 47.8,11.2,520; see cockpit live --help",
        await RunAsync(["live", "--elements", FileWith(string.Join('\n', Brackwing)), "--station", station, "--plain"]));

    [Theory]
    [InlineData("ftp://127.0.0.1:80", "'ftp://127.0.0.1:80' is not an address; write tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, http://HOST:PORT/PATH, rig://HOST:PORT, file:PATH or - (standard input)")]
    [InlineData("tcp://127.0.0.1", "'tcp://127.0.0.1' has no port; write tcp://HOST:PORT")]
    [InlineData("tcp://127.0.0.1:70000", "'70000' is not a port; write a number from 1 to 65535")]
    [InlineData("nonsense", "'nonsense' is not an address; write tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, http://HOST:PORT/PATH, rig://HOST:PORT, file:PATH or - (standard input)")]
    public async Task A_malformed_signal_address_is_named(string address, string fault) =>
        Assert.Equal($"--signal: {fault}", await LiveAsync(FileWith(string.Join('\n', Brackwing)), "--signal", address));

    [Theory]
    [InlineData("0.0.0.0", "0.0.0.0 is no single network: the page is offered at one address of this computer only; give that one")]
    [InlineData("192.0.2.1", "192.0.2.1 is not an address of this computer; leave the address out, or give one of its own")]
    [InlineData("127.0.0.1:99999", "'99999' is no port; write one from 1024 to 65535 behind the address, or 0 for any that is free")]
    public async Task An_address_at_which_no_phone_can_be_served_is_named(string address, string fault) =>
        Assert.Equal($"--phone: {fault}", await LiveAsync(FileWith(string.Join('\n', Brackwing)), "--phone", address));

    [Fact]
    public async Task A_phone_beside_another_sensor_is_refused() =>
        Assert.Equal("--phone: the phone is a sensor on the dish, and so is --pointing; give one of them", await LiveAsync(FileWith(string.Join('\n', Brackwing)), "--phone", "127.0.0.1:0", "--pointing", "file:nowhere.txt"));

    [Fact]
    public async Task A_port_in_use_is_named()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        int port = ((IPEndPoint)listener.LocalEndpoint).Port;
        Assert.Equal(
            $"--signal: 127.0.0.1:{port} is in use by another program; end that one or choose another port",
            await LiveAsync(FileWith(string.Join('\n', Brackwing)), "--signal", $"tcp-listen://:{port}"));
    }

    [Fact]
    public async Task A_refused_port_is_said_on_the_screen_and_the_pass_goes_on()
    {
        using CockpitProcess cockpit = new();
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        int port = ((IPEndPoint)listener.LocalEndpoint).Port;
        listener.Stop();

        (int code, string output, _) = await cockpit.RunAsync(cockpit.Live("--signal", $"tcp://127.0.0.1:{port}", "--stop-after", "3s"));

        Assert.Equal(0, code);
        Assert.EndsWith(
            $"signal:waiting | signal has not come yet: nobody listens at 127.0.0.1:{port}; it is tried again",
            output.TrimEnd().Split('\n')[^1].TrimEnd('\r'),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task No_pass_in_the_next_ten_days_is_said() =>
        Assert.Equal(
            "--station: BRACKWING 5 does not rise above 89.9 degrees here within 10 days of 2026-11-25T00:00:00Z; lower --above, choose another satellite, or start near the epoch with --at",
            await LiveAsync(FileWith(string.Join('\n', Brackwing)), "--above", "89.9deg", "--at", "2026-11-25T00:00:00Z", "--station", "10,100"));

    [Fact]
    public async Task An_unknown_option_is_named() =>
        Assert.Equal("Unrecognized command or argument '--colour'; see cockpit live --help", await LiveAsync(FileWith(string.Join('\n', Brackwing)), "--colour"));

    [Fact]
    public async Task A_folder_for_sessions_that_cannot_be_made_is_named()
    {
        string file = FileWith("not a folder");
        string sentence = await RunAsync(["--plain", "--sound", "off", "--sessions", file, "--stop-after", "1s"], CommandRoot.Failed);
        Assert.Equal($"{file}: the session cannot be written here (something else of that name is in the way); choose another folder with --sessions", sentence);
    }

    [Fact]
    public async Task Without_a_terminal_the_screen_says_so_and_offers_lines()
    {
        using CockpitProcess cockpit = new();
        (int code, _, string error) = await cockpit.RunAsync("--sessions", cockpit.Sessions);

        Assert.Equal(CommandRoot.WrongInput, code);

        Assert.Equal("The screen needs a terminal, and neither input nor output is one; run it in a terminal window, without redirecting it, or use --plain for lines.", error.Trim());
        Assert.False(Directory.Exists(cockpit.Sessions));
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private Task<string> LiveAsync(string elements, params string[] more)
    {
        string[] station = more.Contains("--station") ? [] : ["--station", "47.8,11.2,520"];
        string[] at = more.Contains("--at") ? [] : ["--at", "2026-11-26T17:48:00Z"];
        return RunAsync(["live", "--elements", elements, "--plain", "--sound", "off", "--sessions", Path.Combine(_folder.FullName, "sessions"), .. station, .. at, .. more]);
    }

    private async Task<string> RunAsync(string[] words, int expected = CommandRoot.WrongInput)
    {
        using StringWriter output = new();
        using StringWriter error = new();
        int code = await CommandRoot.RunAsync(words, output, error);
        Assert.Equal(expected, code);
        Assert.Equal("", output.ToString());
        Assert.False(Directory.Exists(Path.Combine(_folder.FullName, "sessions")));
        return Assert.Single(error.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries)).TrimEnd('\r');
    }

    private string FileWith(string text)
    {
        string path = Path.Combine(_folder.FullName, $"input-{Guid.NewGuid():N}.txt");
        File.WriteAllText(path, text);
        return path;
    }
}
