using Cockpit.Core.Signal;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A page with measurements, asked for by the feed as a session does it, from a real server in this process.</summary>
public sealed class HttpFeedTests
{
    [Fact]
    public async Task A_page_of_JSON_and_a_page_of_words_are_one_record_each()
    {
        await using WebServer server = WebServer.Start(_ => WebServer.Answer("200 OK", "{\r\n  \"rx\": {\r\n    \"snr\": 7.4, \"note\": \"a  \\\"b\\\"\",\r\n    \"locked\": true\r\n  }\r\n}\r\n"));
        EventWait events = new();
        await using (LineFeed feed = SignalFeeds.Started(server.Url, events))
        {
            Assert.Equal(server.Url, events.Next<FeedConnected>().Where);
            Assert.Equal(new SignalSample { SnrDb = 7.4, Locked = true }, events.Next<SignalMeasured>().Sample);
        }

        server.Respond = _ => WebServer.Answer("200 OK", "SNR: 7.5 dB\nLevel: -61 dBFS\nnot locked\n");
        EventWait words = new();
        await using LineFeed text = SignalFeeds.Started(server.Url, words);
        Assert.Equal(new SignalSample { SnrDb = 7.5, LevelDb = -61, Locked = false }, words.Next<SignalMeasured>().Sample);
    }

    [Fact]
    public async Task A_page_is_asked_for_five_times_a_second_and_says_when_it_has_not_changed()
    {
        int asked = 0;
        int unchanged = 0;
        await using WebServer server = WebServer.Start(question =>
        {
            Interlocked.Increment(ref asked);
            if (question.Contains("If-None-Match: \"a\"", StringComparison.OrdinalIgnoreCase))
            {
                Interlocked.Increment(ref unchanged);
                return "HTTP/1.1 304 Not Modified\r\nETag: \"a\"\r\n\r\n";
            }

            return WebServer.Answer("200 OK", "level=1", "ETag: \"a\"\r\n");
        });
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started(server.Url, events);
        events.Level(1);
        await Task.Delay(1200, CancellationToken.None);
        Assert.InRange(Volatile.Read(ref asked), 3, 9);
        Assert.Equal(Volatile.Read(ref asked) - 1, Volatile.Read(ref unchanged));
        Assert.Equal(1, feed.Counts.Measured);
    }

    [Theory]
    [InlineData("404 Not Found", "answers 404, which means that there is no such page; look at the path; it is tried again")]
    [InlineData("500 Oops", "answers 500, which means that the other program has failed; it is tried again")]
    [InlineData("401 Unauthorized", "answers 401, which means that it wants a name and password; let the other program answer without them to this computer; it is tried again")]
    [InlineData("418 Teapot", "answers 418; it is tried again")]
    public async Task A_server_that_refuses_is_told_and_asked_again(string status, string sentence)
    {
        bool well = false;
        await using WebServer server = WebServer.Start(_ => Volatile.Read(ref well) ? WebServer.Answer("200 OK", "level=2") : WebServer.Answer(status, "level=1"));
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started(server.Url, events);
        Assert.Equal($"{server.Url} {sentence}", events.Next<FeedLost>().Reason);
        Volatile.Write(ref well, true);
        events.Next<FeedConnected>();
        events.Level(2);
    }

    [Fact]
    public async Task A_page_that_is_too_long_a_slow_one_and_one_that_breaks_off_are_told_and_cost_nothing()
    {
        int turn = 0;
        await using WebServer server = WebServer.Start(_ => Interlocked.Increment(ref turn) switch
        {
            1 => WebServer.Answer("200 OK", new string('x', HttpPort.LongestPage + 1)),
            2 => "HTTP/1.1 200 OK\r\nContent-Length: 100\r\n\r\nlevel=1",
            3 => "rubbish\r\n\r\n",
            _ => WebServer.Answer("200 OK", "level=3"),
        });
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started(server.Url, events);
        Assert.Contains("answers with more than 65536 bytes; give the address of a short page", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        Assert.Contains("it is tried again", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        Assert.Contains("does not answer as a web server does", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        events.Level(3);
        Assert.Equal(0, feed.Counts.Rejected);
    }

    [Fact]
    public async Task A_server_that_never_answers_is_told_after_two_seconds()
    {
        await using WebServer server = WebServer.Start(_ => null);
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started(server.Url, events);
        Assert.EndsWith("does not answer within 2 s; it is tried again", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_server_may_come_late_and_a_redirection_is_followed_on_the_same_host_only()
    {
        int port = WebServer.FreePort();
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"http://127.0.0.1:{port}/a", events);
        Assert.Equal($"nobody listens at 127.0.0.1:{port}; it is tried again", events.Next<FeedLost>().Reason);
        await using WebServer server = WebServer.Start(
            question => question.StartsWith("GET /a ", StringComparison.Ordinal)
                ? "HTTP/1.1 302 Found\r\nLocation: /b\r\nContent-Length: 0\r\n\r\n"
                : WebServer.Answer("200 OK", "level=4"),
            port);
        events.Level(4);
        server.Respond = _ => "HTTP/1.1 302 Found\r\nLocation: http://192.0.2.7/b\r\nContent-Length: 0\r\n\r\n";
        Assert.Equal($"http://127.0.0.1:{port}/a sends on to 'http://192.0.2.7/b', which is another computer; give that address if you trust it; it is tried again", events.Next<FeedLost>().Reason);
        server.Respond = _ => "HTTP/1.1 302 Found\r\nLocation: /a\r\nContent-Length: 0\r\n\r\n";
        Assert.Equal($"http://127.0.0.1:{port}/a sends on in a circle; it is tried again", events.Next<FeedLost>().Reason);
    }
}
