using System.Globalization;

namespace Cockpit.Core.Formats.Options;

/// <summary>A time server as it is typed.</summary>
/// <param name="Host">Name or address.</param>
/// <param name="Port">Port of UDP.</param>
public sealed record TimeServerText(string Host, int Port)
{
    /// <summary>The form, for help texts.</summary>
    public const string Form = "ntp://HOST[:PORT]";

    private const string Prefix = "ntp://";
    private const int UsualPort = 123;

    /// <summary>As people read it.</summary>
    public override string ToString() => Port == UsualPort ? Host : string.Create(CultureInfo.InvariantCulture, $"{Host}:{Port}");

    /// <summary>Reads one.</summary>
    /// <param name="text">As typed.</param>
    /// <param name="source">What it belongs to, for the error.</param>
    public static Parsed<TimeServerText> Read(string text, string source)
    {
        if (text.StartsWith(Prefix, StringComparison.Ordinal)
            && Uri.TryCreate(text, UriKind.Absolute, out Uri? address)
            && address is { Host.Length: > 0 and < 256, AbsolutePath: "/" or "", Query: "", UserInfo: "" })
        {
            return new TimeServerText(address.DnsSafeHost, address.Port is > 0 and < 65536 ? address.Port : UsualPort);
        }

        return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a time server; write {Form}");
    }
}
