using System.Net;
using System.Net.Sockets;
using Cockpit.Devices.Downloads;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Downloads;

/// <summary>Against a real server on loopback: what HTTP can answer (RFC 9110), and what it cannot.</summary>
public sealed class PoliteDownloadTests : IAsyncLifetime, IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-download-");
    private readonly FakeTimeProvider _time = new(new DateTimeOffset(2026, 11, 26, 18, 0, 0, TimeSpan.Zero));
    private readonly TestServer _server = new();

    private string Target => Path.Combine(_folder.FullName, "elements.txt");

    public Task InitializeAsync() => Task.CompletedTask;

    Task IAsyncLifetime.DisposeAsync() => DisposeAsync().AsTask();

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    private Task<Download> FetchAsync(Func<string, string?>? wrong = null, long most = 1000) =>
        new PoliteDownload(_time, "cockpit/test") { MostBytes = most }.FetchAsync(_server.Address, Target, wrong ?? (_ => null), CancellationToken.None);

    private async Task<string> FailsAsync(Func<string, string?>? wrong = null) => Assert.IsType<Download.Failed>(await FetchAsync(wrong)).Reason;

    private string[] Left() => [.. _folder.EnumerateFiles().Select(file => file.Name).Order(StringComparer.Ordinal)];

    private async Task<string> OldAsync()
    {
        await File.WriteAllTextAsync(Target, "old");
        return "old";
    }

    [Fact]
    public async Task A_new_file_takes_the_place_of_the_old_one_which_stays_beside_it()
    {
        await OldAsync();
        _server.Answer = TestServer.Page("new");
        Assert.Equal(new Download.Fetched(3), await FetchAsync());
        Assert.Equal(("new", "old"), (await File.ReadAllTextAsync(Target), await File.ReadAllTextAsync(Target + ".old")));
        Assert.Equal(["elements.txt", "elements.txt.fetched", "elements.txt.old"], Left());
        Assert.Contains("User-Agent: cockpit/test", _server.Questions[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_second_question_names_the_version_that_is_there_and_304_changes_nothing()
    {
        _server.Answer = TestServer.Page("first", "ETag: \"v1\"\r\nLast-Modified: Wed, 25 Nov 2026 10:00:00 GMT\r\n");
        await FetchAsync();
        _time.Advance(TimeSpan.FromHours(3));
        _server.Answer = TestServer.Page("", "", 304);
        Assert.Equal(new Download.Unchanged(), await FetchAsync());
        Assert.Contains("If-None-Match: \"v1\"", _server.Questions[1], StringComparison.Ordinal);
        Assert.Contains("If-Modified-Since: Wed, 25 Nov 2026 10:00:00 GMT", _server.Questions[1], StringComparison.Ordinal);
        Assert.Equal("first", await File.ReadAllTextAsync(Target));
    }

    [Fact]
    public async Task Within_two_hours_nothing_is_sent()
    {
        _server.Answer = TestServer.Page("first");
        await FetchAsync();
        _time.Advance(TimeSpan.FromMinutes(119));
        Assert.Equal(new Download.TooSoon(new DateTimeOffset(2026, 11, 26, 20, 0, 0, TimeSpan.Zero)), await FetchAsync());
        Assert.Single(_server.Questions);
        _time.Advance(TimeSpan.FromMinutes(1));
        Assert.IsType<Download.Fetched>(await FetchAsync());
    }

    [Fact]
    public async Task Another_address_may_be_asked_at_once()
    {
        _server.Answer = TestServer.Page("first");
        await FetchAsync();
        await using TestServer other = new() { Answer = TestServer.Page("second") };
        Download outcome = await new PoliteDownload(_time, "cockpit/test").FetchAsync(other.Address, Target, _ => null, CancellationToken.None);
        Assert.Equal(new Download.Fetched(6), outcome);
        Assert.DoesNotContain("If-", other.Questions[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(403, "127.0.0.1 does not give it to this program (is it asked too often, or does it want a log-in?) (HTTP 403)")]
    [InlineData(404, "127.0.0.1 has nothing under this address; correct it in the settings (HTTP 404)")]
    [InlineData(429, "127.0.0.1 was asked too often (HTTP 429)")]
    [InlineData(500, "127.0.0.1 has a trouble of its own; try again later (HTTP 500)")]
    [InlineData(204, "127.0.0.1 did not send it (HTTP 204)")]
    public async Task A_refusal_is_told_and_the_old_file_stays(int status, string sentence)
    {
        await OldAsync();
        _server.Answer = TestServer.Page("", "", status);
        Assert.Equal(sentence, await FailsAsync());
        Assert.Equal("old", await File.ReadAllTextAsync(Target));
        Assert.IsType<Download.TooSoon>(await FetchAsync());
    }

    [Fact]
    public async Task A_file_that_breaks_off_is_not_kept()
    {
        await OldAsync();
        _server.Answer = TestServer.Page("half", length: 400);
        Assert.Equal("127.0.0.1 broke off in the middle", await FailsAsync());
        Assert.Equal(["elements.txt"], Left());
        Assert.Equal("old", await File.ReadAllTextAsync(Target));
    }

    [Fact]
    public async Task A_server_that_sends_nothing_more_is_left()
    {
        await OldAsync();
        _server.Answer = TestServer.Page("half", length: 400);
        _server.Hangs = true;
        Task<Download> fetching = FetchAsync();
        while (!fetching.IsCompleted)
        {
            await Task.Delay(10);
            _time.Advance(TimeSpan.FromSeconds(10));
        }

        Assert.Equal(new Download.Failed("127.0.0.1 did not send it within 60 s"), await fetching);
        Assert.Equal(["elements.txt"], Left());
    }

    [Fact]
    public async Task What_is_no_element_set_is_not_used_and_not_asked_for_again_at_once()
    {
        await OldAsync();
        _server.Answer = TestServer.Page("<html>Please log in</html>");
        Assert.Equal("what 127.0.0.1 sent is not used: that is a page of words", await FailsAsync(_ => "that is a page of words"));
        Assert.Equal(["elements.txt", "elements.txt.fetched"], Left());
        Assert.Equal("old", await File.ReadAllTextAsync(Target));
        Assert.IsType<Download.TooSoon>(await FetchAsync());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task More_than_the_limit_is_not_taken_whether_it_is_announced_or_not(bool announced)
    {
        string body = new('x', 1001);
        _server.Answer = announced
            ? TestServer.Page(body)
            : System.Text.Encoding.ASCII.GetBytes($"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n{body.Length:x}\r\n{body}\r\n0\r\n\r\n");
        Assert.Equal("what 127.0.0.1 sends is larger than 0 MiB", await FailsAsync());
        Assert.Empty(Left());
    }

    [Fact]
    public async Task What_is_no_web_server_is_said_to_be_none()
    {
        _server.Answer = "220 mail.example\r\n"u8.ToArray();
        Assert.StartsWith("127.0.0.1 does not answer as a web server does", await FailsAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_nobody_listens_the_network_is_asked_for_and_one_may_try_again_at_once()
    {
        using TcpListener free = new(IPAddress.Loopback, 0);
        free.Start();
        Uri nobody = new($"http://127.0.0.1:{((IPEndPoint)free.LocalEndpoint).Port}/");
        free.Stop();
        for (int i = 0; i < 2; i++)
        {
            Download outcome = await new PoliteDownload(_time, "cockpit/test").FetchAsync(nobody, Target, _ => null, CancellationToken.None);
            Assert.Equal(new Download.Failed("127.0.0.1 does not answer; is there a network?"), outcome);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("{\"address\":5}")]
    [InlineData("not json")]
    public async Task A_broken_note_costs_a_download_and_no_more(string note)
    {
        await File.WriteAllTextAsync(Target + ".fetched", note);
        _server.Answer = TestServer.Page("new");
        Assert.Equal(new Download.Fetched(3), await FetchAsync());
    }
}
