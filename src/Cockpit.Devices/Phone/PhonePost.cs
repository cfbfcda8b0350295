using System.Text.Json;
using Microsoft.AspNetCore.Http;

namespace Cockpit.Devices.Phone;

/// <summary>Messages of a page whose socket fails: {"t":"hello","key":""}, then {"key":"...","m":[...]}.</summary>
internal static class PhonePost
{
    /// <summary>Longest body, bytes.</summary>
    public const int LongestBody = 4096;

    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 4 };

    /// <summary>Answers one request.</summary>
    public static async Task RunAsync(HttpContext context, string token, PhoneSetting setting)
    {
        if (!HttpMethods.IsPost(context.Request.Method))
        {
            context.Response.StatusCode = StatusCodes.Status405MethodNotAllowed;
            return;
        }

        try
        {
            using JsonDocument body = await JsonDocument.ParseAsync(context.Request.Body, Options, context.RequestAborted);
            int? code = body.RootElement.ValueKind == JsonValueKind.Object ? await TakeAsync(context, token, body.RootElement, setting) : StatusCodes.Status400BadRequest;
            if (code is { } refusal)
            {
                context.Response.StatusCode = refusal;
            }
        }
        catch (Exception bad) when (bad is JsonException or InvalidOperationException)
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
        }
        catch (BadHttpRequestException bad)
        {
            context.Response.StatusCode = bad.StatusCode;
        }
    }

    /// <returns>The code to answer with; null where the answer is given.</returns>
    private static async Task<int?> TakeAsync(HttpContext context, string token, JsonElement said, PhoneSetting setting)
    {
        string key = said.TryGetProperty("key", out JsonElement own) && own.ValueKind == JsonValueKind.String ? own.GetString() ?? "" : "";
        if (said.TryGetProperty("t", out JsonElement kind) && kind.ValueKind == JsonValueKind.String && kind.ValueEquals("hello"))
        {
            if (setting.Desk.Greet(token, key) is not { } granted)
            {
                return StatusCodes.Status401Unauthorized;
            }

            byte[] answer = GuidanceJson.Paired(granted, setting.Guidance()?.Satellite ?? "");
            context.Response.ContentType = "application/json";
            context.Response.ContentLength = answer.Length;
            await context.Response.Body.WriteAsync(answer, context.RequestAborted);
            return null;
        }

        if (!setting.Desk.IsPaired(key))
        {
            return StatusCodes.Status401Unauthorized;
        }

        return said.TryGetProperty("m", out JsonElement messages) && messages.ValueKind == JsonValueKind.Array ? TakeAll(messages, setting) : StatusCodes.Status400BadRequest;
    }

    private static int TakeAll(JsonElement messages, PhoneSetting setting)
    {
        foreach (JsonElement one in messages.EnumerateArray())
        {
            if (PhoneMessageReader.Read(one, out string? problem) is not { } message)
            {
                setting.Desk.Refuse(problem ?? "");
            }
            else if (!setting.Desk.TakeLoose(message))
            {
                return StatusCodes.Status429TooManyRequests;
            }
        }

        return StatusCodes.Status204NoContent;
    }
}
