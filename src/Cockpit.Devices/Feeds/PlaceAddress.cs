using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Fixes;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>Where a receiver of navigation satellites is heard, as a person writes it: gpsd, a serial line, or a port that brings NMEA 0183.</summary>
/// <param name="Text">As written.</param>
public sealed record PlaceAddress(string Text)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "gpsd://[HOST[:PORT]], serial:DEVICE[?baud=9600], udp://:PORT, tcp://HOST:PORT, tcp-listen://:PORT or file:PATH";

    private const string Gpsd = "gpsd://";
    private const string Socket = "tcp://";
    private const string UsualHost = "127.0.0.1";
    private const string UsualPort = ":2947";

    private bool IsGpsd => Text.StartsWith(Gpsd, StringComparison.Ordinal);

    /// <summary>Makes the port; nothing is opened yet.</summary>
    /// <param name="source">What the address belongs to, for the error.</param>
    /// <param name="time">What its waiting goes by.</param>
    /// <param name="error">What is wrong with the address; null when all is well.</param>
    /// <returns>The port; null when the address is wrong.</returns>
    public IPort? MakePort(string source, TimeProvider time, out ParseError? error)
    {
        if (IsGpsd)
        {
            if (PortAddress.Read(Socket + Completed(Text[Gpsd.Length..].TrimEnd('/')), source).Try(out PortAddress? server, out error))
            {
                return new TcpClientPort(server.Host, server.Port, time, "gpsd", GpsdReader.Watch);
            }

            error = error with { Message = error.Message.Replace(Socket, Gpsd, StringComparison.Ordinal) };
            return null;
        }

        if (SerialLine.IsOne(Text))
        {
            return SerialLine.Make(Text, source, time).Try(out SerialLine? line, out error) ? line : null;
        }

        if (Text is not "-" && PortAddress.Read(Text, source).Try(out PortAddress? where, out error))
        {
            return where.MakePort(time);
        }

        error = new ParseError(source, 0, 0, $"{Quoted.Of(Text)} is no address of a receiver of navigation satellites; write {Forms}");
        return null;
    }

    /// <summary>Makes the reader of its lines; one for each feed.</summary>
    public FixGrammar MakeGrammar() => new(IsGpsd ? new GpsdReader() : new NmeaReader());

    private static string Completed(string place) =>
        place.Length == 0 ? UsualHost + UsualPort
        : place.LastIndexOf(':') > place.LastIndexOf(']') ? (place[0] == ':' ? UsualHost : "") + place
        : place + UsualPort;
}
