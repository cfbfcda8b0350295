using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Runtime.CompilerServices;
using Cockpit.Core.Formats;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Downloads;

/// <summary>Fetches a file that many people fetch from one server: seldom, only when it changed, within limits, whole or not at all.</summary>
/// <param name="time">What the waiting goes by.</param>
/// <param name="agent">What the program calls itself, for the one who runs the server.</param>
public sealed class PoliteDownload(TimeProvider time, string agent)
{
    /// <summary>The least time between two questions to one address.</summary>
    public static readonly TimeSpan LeastBetween = TimeSpan.FromHours(2);

    private const int MostRedirections = 5;

    /// <summary>Most bytes of a file; all element sets in public catalogues are about 10 MB.</summary>
    public long MostBytes { get; init; } = 32L << 20;

    /// <summary>How long the whole of it may take.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Fetches.</summary>
    /// <param name="address">http or https.</param>
    /// <param name="file">Where it goes; what was there stands beside it as .old then.</param>
    /// <param name="whatIsWrong">Looks at the new file before it is put in its place: null when it is good, else one sentence.</param>
    /// <param name="cancellation">Ends it early.</param>
    public async Task<Download> FetchAsync(Uri address, string file, Func<string, string?> whatIsWrong, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(address);
        ArgumentNullException.ThrowIfNull(whatIsWrong);
        if (SecureLibrary.TroubleWith(address) is { } trouble)
        {
            return new Download.Failed(trouble);
        }

        DownloadNote? note = DownloadNote.Beside(file) is { } there && string.Equals(there.Address, address.AbsoluteUri, StringComparison.Ordinal) ? there : null;
        DateTimeOffset now = time.GetUtcNow();
        if (note is not null && note.AskedUtc <= now && now < note.AskedUtc + LeastBetween)
        {
            return new Download.TooSoon(note.AskedUtc + LeastBetween);
        }

        using CancellationTokenSource patience = new(Patience, time);
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(cancellation, patience.Token);
        try
        {
            return await FetchAsync(address, file, File.Exists(file) ? note : null, whatIsWrong, either.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return new Download.Failed(string.Create(CultureInfo.InvariantCulture, $"{address.Host} did not send it within {Patience.TotalSeconds:0} s"));
        }
        catch (HttpRequestException failure)
        {
            return new Download.Failed(Words(address, failure));
        }
        catch (HttpIOException)
        {
            return new Download.Failed($"{address.Host} broke off in the middle");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new Download.Failed($"{file} cannot be written ({FileWords.Of(failure)})");
        }
    }

    private async Task<Download> FetchAsync(Uri address, string file, DownloadNote? note, Func<string, string?> whatIsWrong, CancellationToken cancellation)
    {
        using HttpClient client = new(new SocketsHttpHandler
        {
            // A page may send elsewhere by https.
            AllowAutoRedirect = SecureLibrary.Trouble is null,
            MaxAutomaticRedirections = MostRedirections,
            UseCookies = false,
            AutomaticDecompression = DecompressionMethods.All,
            MaxResponseHeadersLength = 16,
        });
        client.Timeout = Timeout.InfiniteTimeSpan;
        using HttpRequestMessage question = new(HttpMethod.Get, address);
        question.Headers.TryAddWithoutValidation("User-Agent", agent);
        if (note?.EntityTag is { } tag)
        {
            question.Headers.TryAddWithoutValidation("If-None-Match", tag);
        }

        if (note?.LastModified is { } modified)
        {
            question.Headers.TryAddWithoutValidation("If-Modified-Since", modified);
        }

        using HttpResponseMessage answer = await client.SendAsync(question, HttpCompletionOption.ResponseHeadersRead, cancellation).ConfigureAwait(false);
        DownloadNote asked = new(address.AbsoluteUri, time.GetUtcNow(), note?.EntityTag, note?.LastModified);
        if (answer.StatusCode == HttpStatusCode.NotModified && note is not null)
        {
            asked.WriteBeside(file);
            return new Download.Unchanged();
        }

        if (answer.StatusCode != HttpStatusCode.OK)
        {
            asked.WriteBeside(file);
            return new Download.Failed(Refusal(address, answer));
        }

        if (answer.Content.Headers.ContentLength > MostBytes)
        {
            return new Download.Failed(TooLarge(address));
        }

        return await KeepAsync(address, file, answer, asked, whatIsWrong, cancellation).ConfigureAwait(false);
    }

    private async Task<Download> KeepAsync(
        Uri address, string file, HttpResponseMessage answer, DownloadNote asked, Func<string, string?> whatIsWrong, CancellationToken cancellation)
    {
        string part = file + ".part";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(file)) ?? ".");
            if (await CopyAsync(answer, part, cancellation).ConfigureAwait(false) is not { } bytes)
            {
                return new Download.Failed(TooLarge(address));
            }

            if (whatIsWrong(part) is { } wrong)
            {
                asked.WriteBeside(file);
                return new Download.Failed($"what {address.Host} sent is not used: {wrong}");
            }

            if (File.Exists(file))
            {
                File.Copy(file, file + ".old", overwrite: true);
            }

            File.Move(part, file, overwrite: true);
            HttpResponseHeaders headers = answer.Headers;
            (asked with { EntityTag = headers.ETag?.ToString(), LastModified = answer.Content.Headers.LastModified?.ToString("R", CultureInfo.InvariantCulture) }).WriteBeside(file);
            return new Download.Fetched(bytes);
        }
        finally
        {
            File.Delete(part);
        }
    }

    /// <summary>Copies at most what is allowed; null where it is more.</summary>
    private async Task<long?> CopyAsync(HttpResponseMessage answer, string part, CancellationToken cancellation)
    {
        Stream from = await answer.Content.ReadAsStreamAsync(cancellation).ConfigureAwait(false);
        await using ConfiguredAsyncDisposable fromEnds = from.ConfigureAwait(false);
        FileStream to = new(part, FileMode.Create, FileAccess.Write, FileShare.None);
        await using ConfiguredAsyncDisposable toEnds = to.ConfigureAwait(false);
        byte[] buffer = new byte[64 * 1024];
        long bytes = 0;
        while (await from.ReadAsync(buffer, cancellation).ConfigureAwait(false) is > 0 and var read)
        {
            bytes += read;
            if (bytes > MostBytes)
            {
                return null;
            }

            await to.WriteAsync(buffer.AsMemory(0, read), cancellation).ConfigureAwait(false);
        }

        return bytes;
    }

    private string TooLarge(Uri address) => string.Create(CultureInfo.InvariantCulture, $"what {address.Host} sends is larger than {MostBytes >> 20} MiB");

    private static string Refusal(Uri address, HttpResponseMessage answer)
    {
        string what = answer.StatusCode switch
        {
            HttpStatusCode.Forbidden or HttpStatusCode.Unauthorized => "does not give it to this program (is it asked too often, or does it want a log-in?)",
            HttpStatusCode.NotFound or HttpStatusCode.Gone => "has nothing under this address; correct it in the settings",
            HttpStatusCode.TooManyRequests => "was asked too often",
            >= HttpStatusCode.InternalServerError => "has a trouble of its own; try again later",
            _ => "did not send it",
        };
        return string.Create(CultureInfo.InvariantCulture, $"{address.Host} {what} (HTTP {(int)answer.StatusCode})");
    }

    private static string Words(Uri address, HttpRequestException failure) => failure switch
    {
        { InnerException: SocketException { SocketErrorCode: SocketError.HostNotFound or SocketError.TryAgain or SocketError.NoData } } => $"{address.Host} is not found; is there a network?",
        { InnerException: SocketException } => $"{address.Host} does not answer; is there a network?",
        { HttpRequestError: HttpRequestError.ResponseEnded } => $"{address.Host} broke off in the middle",
        { HttpRequestError: HttpRequestError.SecureConnectionError } => $"no secure connection to {address.Host}: {failure.InnerException?.Message.TrimEnd('.') ?? failure.Message.TrimEnd('.')}",
        _ => $"{address.Host} does not answer as a web server does ({failure.Message.TrimEnd('.')})",
    };
}
