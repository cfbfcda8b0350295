using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Feeds;

/// <summary>Where a pointing sensor is heard, as a person writes it, and what the person says of it.</summary>
/// <param name="Text">Without the options of the sensor.</param>
/// <param name="Options">What is said of it.</param>
public sealed record PointingAddress(string Text, SensorOptions Options)
{
    /// <summary>The forms, for help texts.</summary>
    public const string Forms = "tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, serial:DEVICE[?baud=9600] or file:PATH";

    /// <summary>Reads an address, perhaps with ?axis=camera&amp;north=true behind it.</summary>
    /// <param name="text">The address.</param>
    /// <param name="source">What it belongs to, for the error.</param>
    public static Parsed<PointingAddress> Read(string text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        int mark = text.LastIndexOf('?');
        SensorOptions options = SensorOptions.Usual;
        List<string> others = [];
        foreach (string option in mark < 0 ? [] : text[(mark + 1)..].Split('&'))
        {
            string[] parts = option.Split('=', 2);
            if (parts is ["axis" or "north", ..])
            {
                if (options.With(parts[0], parts.Length == 2 ? parts[1] : "") is not { } more)
                {
                    return new ParseError(source, 0, 0, $"{Quoted.Of(option)} is not known; write {SensorOptions.Forms}");
                }

                options = more;
            }
            else
            {
                others.Add(option);
            }
        }

        string plain = mark < 0 ? text : text[..mark];
        return new PointingAddress(others.Count == 0 ? plain : $"{plain}?{string.Join('&', others)}", options);
    }

    /// <summary>Makes the port; nothing is opened yet.</summary>
    /// <param name="source">What the address belongs to, for the error.</param>
    /// <param name="time">What its waiting goes by.</param>
    /// <param name="error">What is wrong with the address; null when all is well.</param>
    /// <returns>The port; null when the address is wrong.</returns>
    public IPort? MakePort(string source, TimeProvider time, out ParseError? error)
    {
        if (SerialLine.IsOne(Text))
        {
            return SerialLine.Make(Text, source, time).Try(out SerialLine? line, out error) ? line : null;
        }

        if (Text is not "-" && PortAddress.Read(Text, source).Try(out PortAddress? where, out error))
        {
            return where.MakePort(time);
        }

        error = new ParseError(source, 0, 0, $"{Quoted.Of(Text)} is no address of a pointing sensor; write {Forms}");
        return null;
    }

    /// <summary>Makes the reader of its lines; one for each feed.</summary>
    public PointingGrammar MakeGrammar() => new(Options);
}
