using System.Text;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Cockpit.Devices.Phone;

/// <summary>Guidance as server-sent events, for a page whose socket fails.</summary>
internal sealed class PhoneStream : IPhoneLink, IDisposable
{
    private static readonly byte[] Before = Encoding.ASCII.GetBytes("data: ");
    private static readonly byte[] After = Encoding.ASCII.GetBytes("\n\n");
    private readonly CancellationTokenSource _end;
    private int _code = PhoneClosing.Going;

    private PhoneStream(CancellationToken aborted, CancellationToken ending) => _end = CancellationTokenSource.CreateLinkedTokenSource(aborted, ending);

    /// <summary>Serves one page until it goes, or another takes over.</summary>
    /// <remarks>Its last event is {"t":"end","code":...} with the code that a socket would be closed with.</remarks>
    public static async Task RunAsync(HttpContext context, string key, PhoneSetting setting)
    {
        if (!HttpMethods.IsGet(context.Request.Method))
        {
            context.Response.StatusCode = StatusCodes.Status405MethodNotAllowed;
            return;
        }

        if (!setting.Desk.IsPaired(key))
        {
            context.Response.StatusCode = StatusCodes.Status401Unauthorized;
            return;
        }

        context.Response.ContentType = "text/event-stream";
        context.Features.Get<IHttpResponseBodyFeature>()?.DisableBuffering();
        using PhoneStream link = new(context.RequestAborted, setting.Ending);
        setting.Desk.Enter(link);
        try
        {
            await GuidancePump.RunAsync(setting, bytes => SendAsync(context, bytes, link._end.Token), link._end.Token);
        }
        catch (Exception ending) when (ending is OperationCanceledException or IOException)
        {
            await SayEndAsync(context, link);
        }
        finally
        {
            setting.Desk.Leave(link);
        }
    }

    /// <inheritdoc/>
    public void End(int code)
    {
        Interlocked.CompareExchange(ref _code, code, PhoneClosing.Going);
        try
        {
            _end.CancelAfter(TimeSpan.Zero);
        }
        catch (ObjectDisposedException)
        {
            // It had ended by itself.
        }
    }

    public void Dispose() => _end.Dispose();

    private static async Task SayEndAsync(HttpContext context, PhoneStream link)
    {
        try
        {
            await SendAsync(context, GuidanceJson.End(link._code), context.RequestAborted);
        }
        catch (Exception gone) when (gone is OperationCanceledException or IOException)
        {
            // Nobody is left to tell.
        }
    }

    private static async ValueTask SendAsync(HttpContext context, byte[] bytes, CancellationToken stop)
    {
        await context.Response.Body.WriteAsync((byte[])[.. Before, .. bytes, .. After], stop);
        await context.Response.Body.FlushAsync(stop);
    }
}
