using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Ports;

/// <summary>A page that a program shows with its measurements, asked for five times a second; each answer is one record.</summary>
/// <remarks>
/// An answer that the server says is the same as before (304) brings nothing. A redirection is followed on the same host only, at most
/// <see cref="MostRedirections"/> times. An answer longer than <see cref="LongestPage"/> is not read to its end. No proxy, no cookies, no password.
/// Source: RFC 9110, HTTP Semantics.
/// </remarks>
public sealed class HttpPort : IPort
{
    /// <summary>Time between two questions.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(200);

    /// <summary>Longest answer that is read, bytes.</summary>
    public const int LongestPage = 64 * 1024;

    /// <summary>How many redirections are followed.</summary>
    public const int MostRedirections = 3;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private readonly Uri _page;
    private readonly bool _wholePages;
    private readonly TimeProvider _time;
    private readonly PageTrust _trust;
    private readonly HttpClient _client;
    private readonly byte[] _buffer = new byte[LongestPage + 1];
    private EntityTagHeaderValue? _tag;

    private HttpPort(Uri page, PageTrust trust, bool wholePages, TimeProvider time)
    {
        _page = page;
        _trust = trust;
        _client = Client(trust);
        _wholePages = wholePages;
        _time = time;
        Where = page.GetLeftPart(UriPartial.Path);
    }

    /// <inheritdoc/>
    public string Where { get; }

    private string Place => SocketWords.Place(_page.IdnHost, _page.Port);

    /// <summary>Whether an address is one of a page.</summary>
    public static bool IsOne(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.StartsWith("http://", StringComparison.OrdinalIgnoreCase) || text.StartsWith("https://", StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Makes the port of an address; nothing is asked yet.</summary>
    /// <param name="text"><c>http://HOST:PORT/PATH</c> or <c>https://...</c>.</param>
    /// <param name="wholePages">Each answer is one record, however many lines it has; else each of its lines is.</param>
    /// <param name="certificate">File of a certificate that is trusted beside what the system trusts; null where there is none.</param>
    /// <param name="source">What the address belongs to, for the error.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="error">What is wrong with the address; null when all is well.</param>
    /// <returns>The port; null when the address is wrong.</returns>
    public static HttpPort? Make(string text, bool wholePages, string? certificate, string source, TimeProvider time, out ParseError? error)
    {
        bool good = Uri.TryCreate(text, UriKind.Absolute, out Uri? page) && page.Host.Length > 0;
        error = !good || page is null
            ? new ParseError(source, 0, 0, $"{Quoted.Of(text)} is no address of a page; write http://HOST:PORT/PATH")
            : page.UserInfo.Length > 0
                ? new ParseError(source, 0, 0, "a name or password in the address of a page is not sent; let the other program answer without one to this computer")
                : SecureLibrary.TroubleWith(page) is { } trouble
                    ? new ParseError(source, 0, 0, trouble)
                    : null;
        return error is null && page is not null && PageTrust.Read(certificate, source).Try(out PageTrust? trust, out error) ? new HttpPort(page, trust, wholePages, time) : null;
    }

    /// <inheritdoc/>
    public void Open()
    {
        // A server that is not there yet is no mistake: it may come later.
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        BackOff backOff = new(_time);
        Complaint complaint = new(listener);
        bool connected = false;
        while (true)
        {
            long asked = _time.GetTimestamp();
            (int length, string? trouble) = await AskAsync(stop);
            stop.ThrowIfCancellationRequested();
            if (trouble is not null)
            {
                (connected, _tag) = (false, null);
                complaint.Lost(trouble + "; it is tried again");
                await backOff.WaitAsync(stop);
                continue;
            }

            if (!connected)
            {
                connected = true;
                backOff.Reset();
                complaint.Connected(Where);
            }

            if (length > 0)
            {
                listener.Received(_wholePages ? HttpPage.OneLine(_buffer.AsSpan(0, length)) : _buffer.AsSpan(0, length), wholeRecords: true);
            }

            TimeSpan left = Period - _time.GetElapsedTime(asked);
            await Task.Delay(left > TimeSpan.Zero ? left : TimeSpan.Zero, _time, stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _client.Dispose();
        _trust.Dispose();
    }

    private static HttpClient Client(PageTrust trust) => new(new SocketsHttpHandler
    {
        AllowAutoRedirect = false,
        UseCookies = false,
        UseProxy = false,
        AutomaticDecompression = DecompressionMethods.None,
        ConnectTimeout = Patience,
        MaxResponseHeadersLength = 16,
        SslOptions = trust.Options(),
    })
    {
        Timeout = Timeout.InfiniteTimeSpan,
    };

    private async Task<(int Length, string? Trouble)> AskAsync(CancellationToken stop)
    {
        using CancellationTokenSource patience = new(Patience, _time);
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop, patience.Token);
        try
        {
            return await AskAsync(_page, MostRedirections, either.Token);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return (0, string.Create(CultureInfo.InvariantCulture, $"{Place} does not answer within {Patience.TotalSeconds:0} s"));
        }
        catch (HttpRequestException failure)
        {
            return (0, _trust.Refusal is { } refused && failure.HttpRequestError == HttpRequestError.SecureConnectionError ? $"the certificate of {Place} {refused}"
                : failure.InnerException is SocketException socket ? SocketWords.OfConnection(socket, _page.IdnHost, _page.Port)
                : failure.HttpRequestError == HttpRequestError.SecureConnectionError ? $"no secure connection to {Place}: {failure.InnerException?.Message.TrimEnd('.') ?? failure.Message.TrimEnd('.')}"
                : $"{Place} does not answer as a web server does ({failure.Message.TrimEnd('.')})");
        }
        catch (IOException)
        {
            return (0, $"{Place} broke off in the middle of its answer");
        }
    }

    private async Task<(int Length, string? Trouble)> AskAsync(Uri page, int redirections, CancellationToken stop)
    {
        if (SecureLibrary.TroubleWith(page) is { } trouble)
        {
            return (0, trouble);
        }

        using HttpRequestMessage question = new(HttpMethod.Get, page);
        question.Headers.Accept.ParseAdd("application/json, text/plain, */*;q=0.1");
        if (_tag is not null)
        {
            question.Headers.IfNoneMatch.Add(_tag);
        }

        using HttpResponseMessage answer = await _client.SendAsync(question, HttpCompletionOption.ResponseHeadersRead, stop);
        if (answer.StatusCode == HttpStatusCode.NotModified)
        {
            return (0, null);
        }

        if ((int)answer.StatusCode is >= 300 and < 400 && answer.Headers.Location is { } location)
        {
            Uri next = new(page, location);
            return redirections > 0 && HttpPort.IsOne(next.AbsoluteUri) && string.Equals(next.IdnHost, _page.IdnHost, StringComparison.OrdinalIgnoreCase)
                ? await AskAsync(next, redirections - 1, stop)
                : (0, redirections > 0 ? $"{Where} sends on to {Quoted.Of(next.GetLeftPart(UriPartial.Path))}, which is another computer; give that address if you trust it" : $"{Where} sends on in a circle");
        }

        if (!answer.IsSuccessStatusCode)
        {
            return (0, string.Create(CultureInfo.InvariantCulture, $"{Where} answers {(int)answer.StatusCode}{MeaningOf(answer.StatusCode)}"));
        }

        int length = await ReadAsync(answer, stop);
        _tag = length > LongestPage ? null : answer.Headers.ETag;
        return length > LongestPage
            ? (0, string.Create(CultureInfo.InvariantCulture, $"{Where} answers with more than {LongestPage} bytes; give the address of a short page with the values only"))
            : (length, null);
    }

    private async Task<int> ReadAsync(HttpResponseMessage answer, CancellationToken stop)
    {
        await using Stream body = await answer.Content.ReadAsStreamAsync(stop);
        int length = 0;
        while (length < _buffer.Length && await body.ReadAsync(_buffer.AsMemory(length), stop) is > 0 and int count)
        {
            length += count;
        }

        return length;
    }

    private static string MeaningOf(HttpStatusCode status) => status switch
    {
        HttpStatusCode.NotFound => ", which means that there is no such page; look at the path",
        HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden => ", which means that it wants a name and password; let the other program answer without them to this computer",
        >= HttpStatusCode.InternalServerError => ", which means that the other program has failed",
        _ => "",
    };
}
