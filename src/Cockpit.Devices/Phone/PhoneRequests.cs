using System.Net.WebSockets;
using Microsoft.AspNetCore.Http;

namespace Cockpit.Devices.Phone;

/// <summary>Answers each request: the three files of the page, its socket, and the way round where the socket fails.</summary>
/// <param name="setting">What the connections share.</param>
internal sealed class PhoneRequests(PhoneSetting setting)
{
    /// <summary>Answers one.</summary>
    public Task AnswerAsync(HttpContext context)
    {
        PhoneHeaders.Put(context.Response.Headers, setting.Place);

        // A page of another name that leads here is a trick to get by the browser's own rules.
        if (!string.Equals(context.Request.Host.Value, setting.Place, StringComparison.OrdinalIgnoreCase))
        {
            return Refuse(context, StatusCodes.Status421MisdirectedRequest);
        }

        string[] parts = (context.Request.Path.Value ?? "").Split('/');
        if (parts.Length < 2 || parts[1].Length != PhonePairing.TokenLength || !setting.Desk.Knows(parts[1].ToUpperInvariant()))
        {
            return Refuse(context, StatusCodes.Status404NotFound);
        }

        string token = parts[1].ToUpperInvariant();
        return parts[2..] switch
        {
            [] => Forward(context, token),
            ["link"] => IsFromPage(context, required: true) ? SocketAsync(context, token) : Refuse(context, StatusCodes.Status403Forbidden),
            ["say"] => IsFromPage(context, required: true) ? PhonePost.RunAsync(context, token, setting) : Refuse(context, StatusCodes.Status403Forbidden),
            ["hear", var key] => IsFromPage(context, required: false) ? PhoneStream.RunAsync(context, key, setting) : Refuse(context, StatusCodes.Status403Forbidden),
            [var name] => FileAsync(context, name),
            _ => Refuse(context, StatusCodes.Status404NotFound),
        };
    }

    /// <summary>A browser says where a page comes from with everything that changes something; a listener of events of the same page need not.</summary>
    private bool IsFromPage(HttpContext context, bool required) =>
        context.Request.Headers.Origin is [var origin] ? string.Equals(origin, setting.Origin, StringComparison.OrdinalIgnoreCase)
            : !required && context.Request.Headers.Origin.Count == 0;

    private async Task SocketAsync(HttpContext context, string token)
    {
        if (!context.WebSockets.IsWebSocketRequest)
        {
            await Refuse(context, StatusCodes.Status400BadRequest);
            return;
        }

        using WebSocket socket = await context.WebSockets.AcceptWebSocketAsync();
        await using PhoneSocket link = new(socket, setting, context.Abort);
        await link.RunAsync(token);
    }

    private static Task Forward(HttpContext context, string token)
    {
        context.Response.StatusCode = StatusCodes.Status308PermanentRedirect;
        context.Response.Headers.Location = $"/{token}/";
        return Task.CompletedTask;
    }

    private static async Task FileAsync(HttpContext context, string name)
    {
        if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
        {
            await Refuse(context, StatusCodes.Status405MethodNotAllowed);
            return;
        }

        if (PhonePage.Find(name) is not { } file)
        {
            await Refuse(context, StatusCodes.Status404NotFound);
            return;
        }

        context.Response.ContentType = file.Kind;
        context.Response.ContentLength = file.Content.Length;
        if (HttpMethods.IsGet(context.Request.Method))
        {
            await context.Response.Body.WriteAsync(file.Content, context.RequestAborted);
        }
    }

    private static Task Refuse(HttpContext context, int code)
    {
        context.Response.StatusCode = code;
        return Task.CompletedTask;
    }
}
