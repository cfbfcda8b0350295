using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>Where lines come from, as a person writes it, and how they are divided.</summary>
/// <param name="Text">Without its options.</param>
/// <param name="Columns">The columns that the person told; null where the lines say it themselves.</param>
public sealed record LineAddress(string Text, SignalColumns? Columns)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, http://HOST:PORT/PATH, rig://HOST:PORT, file:PATH or - (standard input)";

    private const string Option = "columns=";
    private const string Stdin = "stdin:";

    /// <summary>Reads the columns of an address; the address itself is read by <see cref="MakePort"/>.</summary>
    /// <param name="text">An address, perhaps with <c>?columns=time,,level</c> behind it.</param>
    /// <param name="source">What the text belongs to, for the error: an option.</param>
    public static Parsed<LineAddress> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        int mark = text.LastIndexOf('?');
        string[] options = mark < 0 ? [] : text[(mark + 1)..].Split('&');
        string? columns = Array.Find(options, option => option.StartsWith(Option, StringComparison.Ordinal));
        if (columns is null)
        {
            return new LineAddress(Plain(text), null);
        }

        string others = string.Join('&', options.Where(option => !ReferenceEquals(option, columns)));
        string plain = Plain(others.Length == 0 ? text[..mark] : $"{text[..mark]}?{others}");
        return SignalColumns.Read(Uri.UnescapeDataString(columns[Option.Length..]), source).Try(out SignalColumns? told, out ParseError? error)
            ? new LineAddress(plain, told)
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
        if (HttpPort.IsOne(Text))
        {
            return HttpPort.Make(Text, wholePages: Columns is null, source, time, out error);
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

    private static string Plain(string text) => text is Stdin ? "-" : text;
}
