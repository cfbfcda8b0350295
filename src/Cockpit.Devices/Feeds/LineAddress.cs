using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>Where lines come from, as a person writes it, and how they are divided.</summary>
/// <param name="Text">Without its options.</param>
/// <param name="Columns">The columns that the person told; null where the lines say it themselves.</param>
/// <param name="Certificate">File of a certificate that the person trusts, for a page behind https; null where there is none.</param>
public sealed record LineAddress(string Text, SignalColumns? Columns, string? Certificate = null)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, http://HOST:PORT/PATH, rig://HOST:PORT, file:PATH or - (standard input)";

    private const string ColumnsOption = "columns=";
    private const string CertificateOption = "certificate=";
    private const string Stdin = "stdin:";

    /// <summary>Reads the columns of an address; the address itself is read by <see cref="MakePort"/>.</summary>
    /// <param name="text">An address, perhaps with <c>?columns=time,,level</c> or <c>?certificate=FILE</c> behind it; what else stands there is for the server of a page.</param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<LineAddress> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        string plain = Taken(Taken(text, ColumnsOption, out string? columns), CertificateOption, out string? certificate);
        plain = plain is Stdin ? "-" : plain;
        return columns is null ? new LineAddress(plain, null, certificate)
            : SignalColumns.Read(columns, source).Try(out SignalColumns? told, out ParseError? error) ? new LineAddress(plain, told, certificate)
            : error;
    }

    /// <summary>Makes the port; nothing is opened yet.</summary>
    /// <param name="source">What the address belongs to, for the error.</param>
    /// <param name="time">What its waiting goes by.</param>
    /// <param name="error">What is wrong with the address; null when all is well.</param>
    /// <returns>The port; null when the address is wrong.</returns>
    public IPort? MakePort(string source, TimeProvider time, out ParseError? error)
    {
        error = null;
        if (Certificate is not null && !Text.StartsWith("https://", StringComparison.OrdinalIgnoreCase))
        {
            error = new ParseError(source, 0, 0, "a certificate is for https only; write https://HOST:PORT/PATH?certificate=FILE");
            return null;
        }

        if (HttpPort.IsOne(Text))
        {
            return HttpPort.Make(Text, wholePages: Columns is null, Certificate, source, time, out error);
        }

        if (RigAddress.IsOne(Text))
        {
            return RigAddress.Read(Text, source).Try(out RigAddress? rig, out error) ? new RigPort(rig, time) : null;
        }

        if (PortAddress.Read(Text, source).Try(out PortAddress? where, out error))
        {
            return where.MakePort(time);
        }

        error = error.Message.EndsWith(PortAddress.Forms, StringComparison.Ordinal) ? error with { Message = error.Message[..^PortAddress.Forms.Length] + Forms } : error;
        return null;
    }

    /// <summary>Makes the reader of its lines; one for each feed.</summary>
    public SignalGrammar MakeGrammar() => new(Columns, tellsSteadiness: RigAddress.IsOne(Text));

    /// <summary>Takes one option out of an address.</summary>
    private static string Taken(string text, string option, out string? value)
    {
        int mark = text.LastIndexOf('?');
        string[] options = mark < 0 ? [] : text[(mark + 1)..].Split('&');
        string? found = Array.Find(options, one => one.StartsWith(option, StringComparison.Ordinal));
        value = found is null ? null : Uri.UnescapeDataString(found[option.Length..]);
        string others = string.Join('&', options.Where(one => !ReferenceEquals(one, found)));
        return found is null ? text : others.Length == 0 ? text[..mark] : $"{text[..mark]}?{others}";
    }
}
