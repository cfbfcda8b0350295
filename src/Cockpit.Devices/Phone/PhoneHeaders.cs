using Microsoft.AspNetCore.Http;

namespace Cockpit.Devices.Phone;

/// <summary>What every answer says beside its content: nothing kept, nothing loaded from elsewhere, nothing allowed that the page does not need.</summary>
internal static class PhoneHeaders
{
    /// <summary>Puts them on an answer.</summary>
    /// <param name="headers">Of the answer.</param>
    /// <param name="place">Address and port, as in the page's own address.</param>
    public static void Put(IHeaderDictionary headers, string place)
    {
        headers.CacheControl = "no-store";
        headers["Referrer-Policy"] = "no-referrer";
        headers.XContentTypeOptions = "nosniff";

        // The socket is named, because older browsers do not count it as 'self'.
        headers.ContentSecurityPolicy =
            $"default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self' wss://{place}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
        headers["Permissions-Policy"] = "accelerometer=(self), gyroscope=(self), magnetometer=(self), screen-wake-lock=(self), camera=(), microphone=(), geolocation=()";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }
}
