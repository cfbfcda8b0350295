using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Security;
using System.Net.Sockets;
using System.Net.WebSockets;
using System.Security.Authentication;
using System.Text;
using Cockpit.Core.Sensing;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>What somebody in the same network may try, by bare sockets and requests, and what happens.</summary>
public sealed class PhoneAttackTests
{
    private static readonly SocketsHttpHandler Handler = new() { SslOptions = new SslClientAuthenticationOptions { RemoteCertificateValidationCallback = PhoneClient.Trusts }, AllowAutoRedirect = false };

    [Fact]
    public async Task A_phone_pairs_by_the_printed_address_its_orientation_and_buttons_are_in_the_journal_and_it_is_shown_the_guidance()
    {
        await using PhoneSession session = await StartAsync();
        await using PhoneClient phone = await PhoneClient.HelloAsync(session.Address);
        Assert.Equal(25, phone.Key.Length);
        Assert.Equal("GREYWHIN 2", phone.Satellite);
        long number = (await phone.HearAsync())!.Value.GetProperty("n").GetInt64();
        Assert.Equal(number + 1, (await phone.HearAsync())!.Value.GetProperty("n").GetInt64());

        // Upright, the camera 30 degrees up, towards the east: alpha runs against the compass.
        for (int n = 1; n <= 5; n++)
        {
            await phone.SayAsync(string.Create(CultureInfo.InvariantCulture, $$"""{"t":"o","n":{{n}},"kind":"abs","a":{{270 + (0.1 * n)}},"b":120,"g":0,"age":40,"screen":0,"shaking":false}"""));
            await Task.Delay(60);
        }

        await phone.SayAsync("""{"t":"press","key":"peaked","n":1}""");
        await phone.SayAsync("""{"t":"press","key":"peaked","n":1}""");
        await session.SaysAsync("phone:good");
        await UntilAsync(() => session.Journal().Any(e => e.Event is OperatorPressed));
        IReadOnlyList<Envelope> journal = session.Journal();
        PointingMeasured first = journal.Select(e => e.Event).OfType<PointingMeasured>().First();
        Assert.Equal("phone", first.Feed);
        Assert.Equal(SensorNorth.Magnetic, first.Sample.North);
        Assert.Equal(90.0 - 0.1, first.Sample.Azimuth!.Value.Degrees, tolerance: 0.01);
        Assert.Equal(30.0, first.Sample.Elevation!.Value.Degrees, tolerance: 0.01);
        Assert.Equal(TimeSpan.FromMilliseconds(40), first.Age);
        Envelope pressed = Assert.Single(journal, e => e.Event is OperatorPressed);
        Assert.Equal(("phone", OperatorKey.Peaked), (pressed.Source, ((OperatorPressed)pressed.Event).Key));
        AssertKeptNowhere(session, phone.Key);
    }

    [Fact]
    public async Task Requests_that_no_page_makes_are_turned_away_and_every_answer_has_its_headers()
    {
        await using PhoneSession session = await StartAsync();
        using HttpClient http = new(Handler, disposeHandler: false) { BaseAddress = session.Address };
        string token = session.Address.Segments[1].TrimEnd('/');
        string origin = session.Address.GetLeftPart(UriPartial.Authority);

        using (HttpResponseMessage page = await http.GetAsync(""))
        {
            Assert.Equal(HttpStatusCode.OK, page.StatusCode);
            Assert.Equal(new Version(1, 1), page.Version);
            Assert.False(page.Headers.Contains("Server"));
            Assert.Equal("no-store", page.Headers.CacheControl?.ToString());
            Assert.Equal("no-referrer", page.Headers.GetValues("Referrer-Policy").Single());
            Assert.Equal("nosniff", page.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Contains("default-src 'none'", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
            Assert.Contains($"connect-src 'self' wss://{session.Address.Authority};", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
            Assert.Contains("geolocation=()", page.Headers.GetValues("Permissions-Policy").Single(), StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(http, "/"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(http, "/favicon.ico"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(http, "/AAAAAAAAAAAAAAAA/"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(http, $"/{token}/../../etc/passwd"));
        Assert.Equal(HttpStatusCode.NotFound, await StatusAsync(http, $"/{token}/certificate.pfx"));
        Assert.Equal(HttpStatusCode.PermanentRedirect, await StatusAsync(http, $"/{token}"));
        Assert.Equal(HttpStatusCode.RequestUriTooLong, await StatusAsync(http, $"/{token}/{new string('x', 600)}"));
        Assert.StartsWith("HTTP/1.1 421 ", await AnswerAsync(session, $"GET /{token}/ HTTP/1.1\r\nHost: phone.example\r\n\r\n"), StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 400 ", await AnswerAsync(session, $"GET /{token}/ HTTP/1.1\r\n\r\n"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, await StatusAsync(http, "", request => request.Method = HttpMethod.Delete));
        Assert.Equal(HttpStatusCode.Forbidden, await StatusAsync(http, "say", request => request.Method = HttpMethod.Post));
        Assert.Equal(HttpStatusCode.Forbidden, await StatusAsync(http, "say", request => Post(request, "https://evil.example", "{}")));
        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(http, "say", request => Post(request, origin, """{"key":"AAAA","m":[]}""")));
        Assert.Equal(HttpStatusCode.BadRequest, await StatusAsync(http, "say", request => Post(request, origin, "rubbish")));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, await StatusAsync(http, "say", request => Post(request, origin, $$"""{"key":"{{new string('A', 5000)}}"}""")));
        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(http, "hear/AAAAAAAAAAAAAAAAAAAAAAAAA"));
        Assert.Equal(HttpStatusCode.Forbidden, await StatusAsync(http, "hear/A", request => request.Headers.Add("Origin", "https://evil.example")));
        Assert.Equal(HttpStatusCode.Forbidden, await RefusedSocketAsync(session, origin: null));
        Assert.Equal(HttpStatusCode.Forbidden, await RefusedSocketAsync(session, "https://evil.example"));
        await session.SaidAsync(line => line.Contains("turned away", StringComparison.Ordinal) && line.Contains("with a wrong code", StringComparison.Ordinal));

        // Nothing of all that kept the owner out.
        await using PhoneClient owner = await PhoneClient.HelloAsync(session.Address);
        Assert.Equal(25, owner.Key.Length);
    }

    [Fact]
    public async Task Frames_that_no_page_sends_end_the_link_with_their_code()
    {
        await using PhoneSession session = await StartAsync();
        await using (PhoneClient stranger = await PhoneClient.HelloAsync(session.Address, "AAAAAAAAAAAAAAAAAAAAAAAAA"))
        {
            Assert.Equal(4003, await stranger.ClosedAsync());
        }

        await using PhoneClient first = await PhoneClient.HelloAsync(session.Address);
        await using (PhoneClient late = await PhoneClient.HelloAsync(session.Address))
        {
            Assert.Equal(4003, await late.ClosedAsync());
        }

        // Another with the key of the first takes over; the first is told and the link goes on with the other.
        await using PhoneClient second = await PhoneClient.HelloAsync(session.Address, first.Key);
        Assert.Equal(first.Key, second.Key);
        Assert.Equal(4001, await first.ClosedAsync());
        await second.SayAsync($$"""{"t":"o","n":1,"kind":"abs","a":0,"b":90,"g":0,"age":0,"rest":"{{new string('x', 600)}}"}""");
        Assert.Equal(1009, await second.ClosedAsync());

        await using PhoneClient third = await PhoneClient.HelloAsync(session.Address, first.Key);
        for (int i = 0; i < 50; i++)
        {
            await third.SayAsync("rubbish");
        }

        Assert.NotNull(await third.HearAsync());
        await UntilAsync(() => session.Journal().Any(e => e.Event is FeedLineRejected { Reason: "not one complete JSON object" }));
        int said = 0;
        try
        {
            for (; said < 2000; said++)
            {
                await third.SayAsync(string.Create(CultureInfo.InvariantCulture, $$"""{"t":"o","n":{{said}},"kind":"abs","a":{{said % 360}},"b":100,"g":0,"age":0}"""));
            }
        }
        catch (Exception closed) when (closed is WebSocketException or IOException)
        {
            // The program has closed it while we were speaking.
        }

        Assert.Equal(1008, await third.ClosedAsync());
        await UntilAsync(() => session.Journal().Any(e => e.Event is PointingMeasured));
        Assert.True(session.Journal().Count(e => e.Event is PointingMeasured) <= 100, "a flood must not reach the session");
        AssertKeptNowhere(session, first.Key);
    }

    [Fact]
    public async Task It_listens_at_one_address_over_TLS_only_and_silent_connections_keep_nobody_out_for_long()
    {
        await using PhoneSession session = await StartAsync();
        IPEndPoint place = IPEndPoint.Parse(session.Address.Authority);
        await using PhoneClient phone = await PhoneClient.HelloAsync(session.Address);
        if (OperatingSystem.IsLinux())
        {
            Assert.Equal([place.ToString()], Listening(place.Port));
        }

        List<TcpClient> silent = [];
        try
        {
            for (int i = 0; i < 24; i++)
            {
                TcpClient one = new();
                await one.ConnectAsync(place);
                silent.Add(one);
            }

            using HttpClient http = new(Handler, disposeHandler: false) { BaseAddress = session.Address };
            Assert.Equal(HttpStatusCode.OK, await StatusAsync(http, "page.js"));
            Assert.NotNull(await phone.HearAsync());

            // Those that say nothing are cut off: the handshake may take three seconds.
            byte[] nothing = new byte[16];
            using CancellationTokenSource limit = new(TimeSpan.FromSeconds(10));
            foreach (TcpClient one in silent)
            {
                Assert.Equal(0, await ReadAsync(one, nothing, limit.Token));
            }
        }
        finally
        {
            silent.ForEach(one => one.Dispose());
        }

        using TcpClient plain = new();
        await plain.ConnectAsync(place);
        await plain.GetStream().WriteAsync(Encoding.ASCII.GetBytes($"GET / HTTP/1.1\r\nHost: {place}\r\n\r\n"));
        byte[] answer = new byte[64];
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(10));
        int length = await ReadAsync(plain, answer, patience.Token);
        Assert.DoesNotContain("HTTP", Encoding.ASCII.GetString(answer, 0, length), StringComparison.Ordinal);

        using TcpClient secure = new();
        await secure.ConnectAsync(place);
        await using SslStream tls = new(secure.GetStream(), leaveInnerStreamOpen: false, PhoneClient.Trusts);
        await tls.AuthenticateAsClientAsync(new SslClientAuthenticationOptions { TargetHost = "127.0.0.1", ApplicationProtocols = [SslApplicationProtocol.Http2, SslApplicationProtocol.Http11] });
        Assert.Equal(SslApplicationProtocol.Http11, tls.NegotiatedApplicationProtocol);
        Assert.True(tls.SslProtocol is SslProtocols.Tls12 or SslProtocols.Tls13);
    }

    [Fact]
    public async Task A_program_that_is_started_again_is_found_by_the_same_key_under_the_same_certificate()
    {
        using CockpitProcess home = new();
        string place = string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{PeerProcess.FreePort()}");
        Uri address;
        string key;
        byte[] certificate;
        string file = Path.Combine(home.Folder, ".config", "cockpit", "phone", "certificate.pfx");
        await using (PhoneSession before = await PhoneSession.StartAsync(own => PhoneSession.Climbing(own, "--phone", place), home))
        {
            await using PhoneClient phone = await PhoneClient.HelloAsync(before.Address);
            (address, key, certificate) = (before.Address, phone.Key, await File.ReadAllBytesAsync(file));
        }

        await using PhoneSession after = await PhoneSession.StartAsync(own => PhoneSession.Climbing(own, "--phone", place), home);
        Assert.NotEqual(address, after.Address);
        await using PhoneClient again = await PhoneClient.HelloAsync(address, key);
        Assert.Equal(key, again.Key);
        Assert.Equal(certificate, await File.ReadAllBytesAsync(file));
        if (!OperatingSystem.IsWindows())
        {
            foreach (string kept in Directory.GetFiles(Path.GetDirectoryName(file)!))
            {
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(kept));
            }
        }

        string session = Directory.GetDirectories(home.Sessions).Order(StringComparer.Ordinal).First();
        string given = Path.Combine(home.Folder, "given.journal");
        Assert.Equal(0, (await home.RunAsync("share", session, given)).ExitCode);
        string shared = await File.ReadAllTextAsync(given);
        Assert.DoesNotContain(key, shared, StringComparison.Ordinal);
        Assert.DoesNotContain(address.Segments[1].TrimEnd('/'), shared, StringComparison.Ordinal);
        AssertKeptNowhere(after, key);
    }

    private static Task<PhoneSession> StartAsync() => PhoneSession.StartAsync(home => PhoneSession.Climbing(home, "--phone", "127.0.0.1:0"));

    /// <summary>Neither key nor token stands in any file of the session or of the home.</summary>
    private static void AssertKeptNowhere(PhoneSession session, string key)
    {
        string token = session.Address.Segments[1].TrimEnd('/');
        Assert.DoesNotContain(session.Files(), file => file.Text.Contains(key, StringComparison.Ordinal) || file.Text.Contains(token, StringComparison.Ordinal));
    }

    private static async Task<HttpStatusCode> StatusAsync(HttpClient http, string path, Action<HttpRequestMessage>? change = null)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, path);
        change?.Invoke(request);
        using HttpResponseMessage answer = await http.SendAsync(request);
        return answer.StatusCode;
    }

    /// <summary>What comes back first for a request as it stands.</summary>
    private static async Task<string> AnswerAsync(PhoneSession session, string request)
    {
        using TcpClient client = new();
        await client.ConnectAsync(IPEndPoint.Parse(session.Address.Authority));
        await using SslStream tls = new(client.GetStream(), leaveInnerStreamOpen: false, PhoneClient.Trusts);
        await tls.AuthenticateAsClientAsync("127.0.0.1");
        await tls.WriteAsync(Encoding.ASCII.GetBytes(request));
        byte[] answer = new byte[64];
        return Encoding.ASCII.GetString(answer, 0, await tls.ReadAsync(answer));
    }

    private static void Post(HttpRequestMessage request, string origin, string body)
    {
        request.Method = HttpMethod.Post;
        request.Headers.Add("Origin", origin);
        request.Content = new StringContent(body, MediaTypeHeaderValue.Parse("application/json"));
    }

    private static async Task<HttpStatusCode> RefusedSocketAsync(PhoneSession session, string? origin)
    {
        using ClientWebSocket socket = new();
        socket.Options.RemoteCertificateValidationCallback = PhoneClient.Trusts;
        socket.Options.CollectHttpResponseDetails = true;
        if (origin is not null)
        {
            socket.Options.SetRequestHeader("Origin", origin);
        }

        await Assert.ThrowsAsync<WebSocketException>(() => socket.ConnectAsync(new UriBuilder(session.Address) { Scheme = "wss", Path = session.Address.AbsolutePath + "link" }.Uri, CancellationToken.None));
        return socket.HttpStatusCode;
    }

    private static async Task<int> ReadAsync(TcpClient client, byte[] buffer, CancellationToken stop)
    {
        try
        {
            return await client.GetStream().ReadAsync(buffer, stop);
        }
        catch (IOException)
        {
            return 0;
        }
    }

    /// <summary>Where a port is listened at, of all addresses of this computer (proc(5), /proc/net/tcp).</summary>
    private static string[] Listening(int port)
    {
        const string listening = "0A";
        return
        [
            .. new[] { "/proc/net/tcp", "/proc/net/tcp6" }.SelectMany(file => File.ReadLines(file).Skip(1))
                .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
                .Where(fields => fields[3] == listening && int.Parse(fields[1].Split(':')[1], NumberStyles.HexNumber, CultureInfo.InvariantCulture) == port)
                .Select(fields => $"{new IPAddress(Convert.FromHexString(fields[1].Split(':')[0]).Reverse().ToArray())}:{port.ToString(CultureInfo.InvariantCulture)}"),
        ];
    }

    private static async Task UntilAsync(Func<bool> isSo)
    {
        for (int i = 0; i < 500 && !isSo(); i++)
        {
            await Task.Delay(20);
        }

        Assert.True(isSo());
    }
}
