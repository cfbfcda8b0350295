using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Fixes;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>Place and time of a receiver of navigation satellites: the real gpsd, and NMEA 0183 by UDP and by a serial line.</summary>
public sealed class PlaceFeedTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-place-");
    private readonly EventWait _events = new();

    public void Dispose() => _folder.Delete(recursive: true);

    [GpsdFact]
    public async Task The_real_gpsd_tells_the_place_and_time_of_the_receiver_behind_it_and_may_come_late()
    {
        int port = PeerProcess.FreePort();
        await using LineFeed feed = Started($"gpsd://:{port}");
        Assert.Equal($"nobody listens at 127.0.0.1:{port}; it is tried again", _events.Next<FeedLost>().Reason);
        using PeerProcess gpsd = await GpsdAsync(port);
        Assert.Equal($"gpsd 127.0.0.1:{port}", _events.Next<FeedConnected>().Where);
        PlaceFixed place = _events.Next<PlaceFixed>();
        Assert.Equal((47.80123, 11.20345), (Math.Round(place.Latitude.Degrees, 6), Math.Round(place.Longitude.Degrees, 6)));
        Assert.Equal(521.5, place.HeightMetres!.Value, 0.05);
        Assert.InRange(place.DoubtMetres!.Value, 1, 100);
        Assert.InRange(place.Utc!.Value, Noon, Noon.AddSeconds(90));
        Assert.True(_events.Next<PlaceFixed>().Utc > place.Utc);
        Assert.Equal(0, feed.Counts.Rejected);
    }

    [GpsdFact]
    public async Task A_station_that_is_elsewhere_is_told_in_the_lines_and_kept_in_the_journal()
    {
        int port = PeerProcess.FreePort();
        using PeerProcess gpsd = await GpsdAsync(port);
        using CockpitProcess cockpit = new();
        string[] live = [.. cockpit.Live("--place", $"gpsd://127.0.0.1:{port}", "--stop-after", "6s").Select(word => word is "2026-11-26T17:48:00Z" ? "2026-11-26T17:30:00Z" : word)];
        (int code, string output, string error) = await cockpit.RunAsync(live);
        Assert.True(code == 0, error);
        Assert.Contains("place:good", output, StringComparison.Ordinal);
        Assert.Matches("the station is [0-9]+ m from where the receiver says: start again with --station 47\\.80123,11\\.20345,52[12]", output);
        string journal = await File.ReadAllTextAsync(Path.Combine(Directory.GetDirectories(cockpit.Sessions).Single(), "session.jsonl"), CancellationToken.None);
        Assert.Contains("\"type\":\"place.fixed/1\"", journal, StringComparison.Ordinal);

        // A session at a chosen instant has no clock to be compared with that of the satellites.
        Assert.DoesNotContain("clock.compared", journal, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Datagrams_of_NMEA_give_a_place_when_there_is_one_and_damage_is_counted()
    {
        UdpPort port = new("", 0, TimeProvider.System);
        await using LineFeed feed = Started(port, new PlaceAddress("udp://:1").MakeGrammar());
        IPEndPoint there = port.LocalEndPoint!;
        using UdpClient sender = new();
        await sender.SendAsync(Encoding.ASCII.GetBytes(NmeaSentence.Of("GPGGA,120000,,,,,0,00,,,M,,M,,") + "\r\n"), there, CancellationToken.None);
        Assert.Equal("does not know its place yet: give the receiver free sky", _events.Next<FeedNoted>().Note);
        await sender.SendAsync(Encoding.ASCII.GetBytes(Epoch(0).Replace("4748", "4749", StringComparison.Ordinal)), there, CancellationToken.None);
        Assert.Contains("it was damaged on its way", _events.Next<FeedLineRejected>().Reason, StringComparison.Ordinal);
        await sender.SendAsync(Encoding.ASCII.GetBytes(Epoch(1)), there, CancellationToken.None);
        Assert.Equal("knows its place", _events.Next<FeedNoted>().Note);
        Assert.Equal(47.80123, _events.Next<PlaceFixed>().Latitude.Degrees, 6);
        await sender.SendAsync(Encoding.ASCII.GetBytes(Epoch(2)), there, CancellationToken.None);
        Assert.Equal(Noon.AddSeconds(2), _events.Next<PlaceFixed>(place => place.Utc is not null).Utc);
    }

    [SerialLineFact]
    public async Task A_serial_line_may_be_plugged_in_late_pulled_out_and_plugged_in_again()
    {
        string device = Path.Combine(_folder.FullName, "ttyUSB0");
        await using LineFeed feed = Started($"serial:{device}?baud=4800");
        Assert.Equal($"there is no serial line {device}; it is tried again", _events.Next<FeedLost>().Reason);
        for (int round = 0; round < 2; round++)
        {
            using (TwoEndedLine line = new())
            {
                File.CreateSymbolicLink(device, line.Device);
                Assert.Equal($"serial line {device}, 4800 baud", _events.Next<FeedConnected>().Where);

                // What comes first is the rest of a sentence.
                line.Send("4748.0738,N,01112*00\r\n" + Epoch(10 * round));
                Assert.Equal(11.20345, _events.Next<PlaceFixed>().Longitude.Degrees, 6);
                File.Delete(device);
            }

            _events.Next<FeedLost>();
        }

        Assert.Equal(0, feed.Counts.Rejected);
    }

    [Theory]
    [InlineData("gpsd://host:0", "'0' is not a port; write a number from 1 to 65535")]
    [InlineData("serial:", "serial: needs the name of the line, like serial:/dev/ttyUSB0 or serial:COM3")]
    [InlineData("serial:/dev/ttyUSB0?baud=fast", "'?baud=fast' is no speed of a serial line; write ?baud=9600, or the number that its receiver has")]
    [InlineData("-", "'-' is no address of a receiver of navigation satellites; write " + PlaceAddress.Forms)]
    [InlineData("http://127.0.0.1/", "'http://127.0.0.1/' is no address of a receiver of navigation satellites; write " + PlaceAddress.Forms)]
    public void A_wrong_address_is_refused_with_the_right_forms(string address, string message)
    {
        Assert.Null(new PlaceAddress(address).MakePort("--place", TimeProvider.System, out ParseError? error));
        Assert.Equal(message, error!.Message);
    }

    [Theory]
    [InlineData("gpsd://", "gpsd 127.0.0.1:2947")]
    [InlineData("gpsd://:2948", "gpsd 127.0.0.1:2948")]
    [InlineData("gpsd://attic", "gpsd attic:2947")]
    [InlineData("gpsd://[::1]", "gpsd [::1]:2947")]
    [InlineData("gpsd://[::1]:2948/", "gpsd [::1]:2948")]
    public void The_usual_place_of_gpsd_need_not_be_said(string address, string where)
    {
        using IPort? port = new PlaceAddress(address).MakePort("--place", TimeProvider.System, out _);
        Assert.Equal(where, port!.Where);
    }

    /// <summary>What a receiver says in one second.</summary>
    private static string Epoch(int second)
    {
        string time = Noon.AddSeconds(second).ToString("HHmmss.ff", CultureInfo.InvariantCulture);
        return NmeaSentence.Of($"GPGGA,{time},4748.0738,N,01112.2070,E,1,08,0.9,474.6,M,46.9,M,,") + "\r\n"
            + NmeaSentence.Of("GPGSA,A,3,04,05,09,12,17,22,24,30,,,,,1.8,0.9,1.5") + "\r\n"
            + NmeaSentence.Of($"GPRMC,{time},A,4748.0738,N,01112.2070,E,0.0,0.0,251126,,,A") + "\r\n";
    }

    private async Task<PeerProcess> GpsdAsync(int port)
    {
        string log = Path.Combine(_folder.FullName, "receiver.nmea");
        await File.WriteAllTextAsync(log, string.Concat(Enumerable.Range(0, 60).Select(Epoch)), CancellationToken.None);
        PeerProcess gpsd = new("gpsfake", "-n", "-q", "-c", "0.1", "-P", port.ToString(CultureInfo.InvariantCulture), "-u", log);
        await gpsd.WhenListeningAsync(port);
        return gpsd;
    }

    private LineFeed Started(string address)
    {
        PlaceAddress place = new(address);
        return Started(place.MakePort("--place", TimeProvider.System, out _)!, place.MakeGrammar());
    }

    private LineFeed Started(IPort port, FixGrammar grammar)
    {
        LineFeed feed = new(port, Sources.Place, grammar);
        feed.Open();
        feed.Start(_events, TimeProvider.System);
        return feed;
    }
}
