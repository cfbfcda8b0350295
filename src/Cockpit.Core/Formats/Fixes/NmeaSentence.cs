using System.Buffers.Text;
using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Fixes;

/// <summary>A sentence of NMEA 0183 whose checksum is right, in its fields.</summary>
/// <remarks>
/// The form: $ or !, an address of a talker (two characters) and a type (three), fields between commas, *, the exclusive or of all characters
/// between $ and * as two hexadecimal digits. Sources: IEC 61162-1; E. S. Raymond, NMEA Revealed (the gpsd project). The standard allows 82
/// characters with the line end; receivers with many digits send more. A tag block in front (NMEA 0183 version 4, between back slashes) is passed over.
/// </remarks>
public readonly ref struct NmeaSentence
{
    /// <summary>Longest line that is read, bytes without its end.</summary>
    public const int LongestLine = 160;

    private const int AddressLength = 5;

    private readonly ReadOnlySpan<byte> _body;

    private NmeaSentence(ReadOnlySpan<byte> body) => _body = body;

    /// <summary>The three letters behind the talker; empty where the sentence is one of a manufacturer, or a question.</summary>
    public ReadOnlySpan<byte> Type => this[0] is { Length: AddressLength } address && address[0] != (byte)'P' ? address[2..] : default;

    /// <summary>A field; 0 is the address. Empty where there is none.</summary>
    public ReadOnlySpan<byte> this[int index]
    {
        get
        {
            ReadOnlySpan<byte> rest = _body;
            for (int k = 0; k < index; k++)
            {
                int comma = rest.IndexOf((byte)',');
                if (comma < 0)
                {
                    return default;
                }

                rest = rest[(comma + 1)..];
            }

            int end = rest.IndexOf((byte)',');
            return end < 0 ? rest : rest[..end];
        }
    }

    /// <summary>Reads the frame of a sentence.</summary>
    /// <param name="line">Without its end.</param>
    /// <param name="column">Where it goes wrong, from 1.</param>
    /// <param name="problem">What is wrong; null where nothing is.</param>
    /// <returns>The sentence; empty where something is wrong.</returns>
    public static NmeaSentence Read(ReadOnlySpan<byte> line, out int column, out string? problem)
    {
        ReadOnlySpan<byte> text = line.Trim(" \t\r\0"u8);
        int start = text.Length > 1 && text[0] == (byte)'\\' ? text[1..].IndexOf((byte)'\\') + 2 : 0;
        column = start + 1;
        problem = null;
        if (start >= text.Length || text[start] is not ((byte)'$' or (byte)'!'))
        {
            problem = "a sentence begins with $ or !; is that NMEA 0183, and the speed of the line right?";
            return default;
        }

        ReadOnlySpan<byte> rest = text[(start + 1)..];
        int star = rest.LastIndexOf((byte)'*');
        column += star < 0 ? rest.Length + 1 : star + 1;
        if (star < 0 || rest.Length != star + 3 || !Utf8Parser.TryParse(rest[(star + 1)..], out byte told, out int used, 'x') || used != 2)
        {
            problem = "the checksum is missing: * and two hexadecimal digits at the end; set the receiver to send it";
            return default;
        }

        byte found = ChecksumOf(rest[..star]);
        if (found != told)
        {
            problem = string.Create(CultureInfo.InvariantCulture, $"the checksum says {told:X2}, the sentence gives {found:X2}: it was damaged on its way");
            return default;
        }

        return new NmeaSentence(rest[..star]);
    }

    /// <summary>The exclusive or of all characters.</summary>
    /// <param name="body">What stands between $ and *.</param>
    public static byte ChecksumOf(ReadOnlySpan<byte> body)
    {
        byte sum = 0;
        foreach (byte next in body)
        {
            sum ^= next;
        }

        return sum;
    }

    /// <summary>The whole line of a sentence, without its end.</summary>
    /// <param name="body">What stands between $ and *, ASCII.</param>
    public static string Of(string body) => string.Create(CultureInfo.InvariantCulture, $"${body}*{ChecksumOf(Encoding.ASCII.GetBytes(body)):X2}");
}
