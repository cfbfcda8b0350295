using System.Runtime.InteropServices;

namespace Cockpit.Devices.Ports;

/// <summary>Whether this computer has what https needs: on Linux that is the system's OpenSSL, and the runtime ends the whole program where it is asked for and missing.</summary>
public static class SecureLibrary
{
    // In the order in which the runtime looks for them.
    private static readonly string[] Names = ["libssl.so.3", "libssl.so.1.1"];
    private static readonly Lazy<string?> Found = new(() => OperatingSystem.IsLinux() ? Sentence(name => NativeLibrary.TryLoad(name, out _)) : null);

    /// <summary>Why nothing secure can be spoken, one sentence; null where it can. To be asked before, because afterwards there is nobody to answer.</summary>
    public static string? Trouble => Found.Value;

    /// <summary>The same for a page: null too where it is not secure.</summary>
    /// <param name="page">Its address.</param>
    public static string? TroubleWith(Uri page)
    {
        ArgumentNullException.ThrowIfNull(page);
        return string.Equals(page.Scheme, Uri.UriSchemeHttps, StringComparison.Ordinal) ? Trouble : null;
    }

    /// <summary>The same for other systems than this one.</summary>
    /// <param name="canLoad">Whether a library of a name is there.</param>
    internal static string? Sentence(Func<string, bool> canLoad) =>
        Names.Any(canLoad) ? null : "https needs OpenSSL, and libssl is missing on this computer; on Debian install libssl3";
}
