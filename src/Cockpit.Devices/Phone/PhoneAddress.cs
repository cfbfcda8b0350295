using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Sensing;

namespace Cockpit.Devices.Phone;

/// <summary>Where the phone finds this computer, as a person writes it, and how the phone lies on the dish.</summary>
/// <param name="Address">One address of this computer; null = it is chosen by itself.</param>
/// <param name="Port">0 = the system chooses.</param>
/// <param name="Options">Which axis of the phone lies along the dish.</param>
public sealed record PhoneAddress(IPAddress? Address, int Port, SensorOptions Options)
{
    /// <summary>Fixed, so that a rule of a firewall holds.</summary>
    public const int UsualPort = 17643;

    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "ADDRESS[:PORT]";

    /// <summary>The camera looks where the dish looks: the phone stands behind it, its screen to the person.</summary>
    private static readonly SensorOptions Usual = SensorOptions.Usual with { Axis = DeviceAxis.Camera };

    /// <summary>Reads an address, perhaps with ?axis=top behind it; empty or "auto" = chosen by itself.</summary>
    /// <param name="text">The address.</param>
    /// <param name="source">What it belongs to, for the error.</param>
    public static Parsed<PhoneAddress> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[] parts = text.Split('?', 2);
        SensorOptions options = Usual;
        foreach (string option in parts.Length < 2 ? [] : parts[1].Split('&'))
        {
            string[] pair = option.Split('=', 2);
            if (options.With(pair[0], pair.Length == 2 ? pair[1] : "") is not { } more)
            {
                return new ParseError(source, 0, 0, $"{Quoted.Of(option)} is not known; write {SensorOptions.Forms}");
            }

            options = more;
        }

        string where = parts[0].Trim();
        if (where.Length == 0 || string.Equals(where, "auto", StringComparison.OrdinalIgnoreCase))
        {
            return new PhoneAddress(null, UsualPort, options);
        }

        return ReadPlace(where, out IPAddress? address, out int port) is { } problem
            ? new ParseError(source, 0, 0, problem)
            : new PhoneAddress(address, port, options);
    }

    /// <summary>What is wrong with it; null when nothing is.</summary>
    private static string? ReadPlace(string where, out IPAddress? address, out int port)
    {
        (string host, string? number) = Split(where);
        port = UsualPort;
        if (!IPAddress.TryParse(host, out address) || (address.AddressFamily == AddressFamily.InterNetwork && host.Count(letter => letter == '.') != 3))
        {
            return $"{Quoted.Of(where)} is no address of this computer; write one like 192.168.43.17, or --phone alone";
        }

        if (number is not null && (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out port) || port > IPEndPoint.MaxPort))
        {
            return $"{Quoted.Of(number)} is no port; write one from 1024 to 65535 behind the address, or 0 for any that is free";
        }

        return address.Equals(IPAddress.Any) || address.Equals(IPAddress.IPv6Any) || address.IsIPv6Multicast || address.Equals(IPAddress.Broadcast)
            ? $"{host} is no single network: the page is offered at one address of this computer only; give that one"
            : address.IsIPv6LinkLocal ? $"{host} needs a zone, which no browser takes; give an IPv4 address of this computer" : null;
    }

    private static (string Host, string? Port) Split(string where)
    {
        if (where.StartsWith('['))
        {
            int end = where.IndexOf(']', StringComparison.Ordinal);
            return end < 0 ? (where, null) : (where[1..end], where.Length > end + 1 && where[end + 1] == ':' ? where[(end + 2)..] : where.Length > end + 1 ? "" : null);
        }

        int colon = where.LastIndexOf(':');
        return colon < 0 || where.IndexOf(':', StringComparison.Ordinal) != colon ? (where, null) : (where[..colon], where[(colon + 1)..]);
    }
}
