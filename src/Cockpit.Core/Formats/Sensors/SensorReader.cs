using System.Text;
using System.Text.Json;
using Cockpit.Core.Formats.Fixes;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Sensors;

/// <summary>What one line of a pointing sensor says.</summary>
/// <param name="Sample">The sample; null where there is none.</param>
/// <param name="Error">The mistake; null where there is none.</param>
public readonly record struct SensorLineReading(SensorSample? Sample, ParseError? Error = null);

/// <summary>Reads the lines of a pointing sensor: pairs (az=214.5 el=32), JSON, or NMEA 0183 (HDT, HDG, XDR). One for each feed.</summary>
/// <remarks>
/// Sources: IEC 61162-1 and E. S. Raymond, NMEA Revealed, for the sentences; W3C Device Orientation for alpha, beta, gamma. Unknown names are passed over.
/// </remarks>
/// <param name="options">What a person said of the sensor.</param>
public sealed class SensorReader(SensorOptions options)
{
    /// <summary>Longest line that is read, bytes without its end.</summary>
    public const int LongestLine = 1024;

    private double _lastBeta = 90.0;

    /// <summary>Reads a line; never throws.</summary>
    /// <param name="line">Without its end.</param>
    /// <param name="source">What it belongs to, for the error.</param>
    public SensorLineReading Read(ReadOnlySpan<byte> line, string source)
    {
        ReadOnlySpan<byte> text = line.Trim(" \t\r\0"u8);
        if (text.IsEmpty || text[0] == (byte)'#')
        {
            return default;
        }

        return text[0] switch
        {
            (byte)'$' or (byte)'!' or (byte)'\\' => ReadSentence(text, source),
            (byte)'{' => ReadJson(text, source),
            _ => ReadPairs(Encoding.UTF8.GetString(text), source),
        };
    }

    private SensorLineReading ReadPairs(string text, string source)
    {
        SensorFields fields = new();
        bool any = false;
        for (int at = 0; at < text.Length;)
        {
            if (" \t,;".Contains(text[at], StringComparison.Ordinal))
            {
                at++;
                continue;
            }

            int end = text.AsSpan(at).IndexOfAny(" \t,;");
            string pair = end < 0 ? text[at..] : text[at..(at + end)];
            int sign = pair.IndexOfAny(['=', ':']);
            if (sign <= 0)
            {
                return Wrong(source, at + 1, $"expected a pair like el=32.0, found {Quoted.Of(pair)}");
            }

            string name = pair[..sign];
            if (SensorFields.Knows(name))
            {
                any = true;
                if (Set(fields, name, pair[(sign + 1)..]) is { } problem)
                {
                    return Wrong(source, at + sign + 2, problem);
                }
            }

            at += pair.Length;
        }

        return any || text.Contains('=', StringComparison.Ordinal) ? Result(fields, source) : Wrong(source, 1, "no pairs; write az=214.5 el=32.0");
    }

    private static string? Set(SensorFields fields, string name, string value) =>
        SensorFields.IsNorth(name)
            ? fields.SetNorth(value) ? null : $"{Quoted.Of(value)} is no north; choose true, magnetic or arbitrary"
            : NumberText.TryRead(value.TrimEnd('°'), out double number) ? fields.Set(name, number) : $"{Quoted.Of(value)} is not a number";

    private SensorLineReading ReadJson(ReadOnlySpan<byte> text, string source)
    {
        SensorFields fields = new();
        Utf8JsonReader json = new(text);
        string name = "";
        try
        {
            while (json.Read())
            {
                if (json.TokenType == JsonTokenType.PropertyName)
                {
                    name = json.GetString() ?? "";
                }
                else if (SensorFields.Knows(name) && json.TokenType is JsonTokenType.Number or JsonTokenType.String)
                {
                    string? problem = json.TokenType == JsonTokenType.Number && !SensorFields.IsNorth(name) ? fields.Set(name, json.GetDouble()) : Set(fields, name, json.GetString() ?? "");
                    if (problem is not null)
                    {
                        return Wrong(source, 1 + (int)json.TokenStartIndex, problem);
                    }
                }
            }
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException or FormatException)
        {
            return Wrong(source, 1 + (int)Math.Clamp((trouble as JsonException)?.BytePositionInLine ?? 0, 0, text.Length), "not one complete JSON object");
        }

        fields.PutUprightBeta(_lastBeta);
        _lastBeta = fields.Beta ?? _lastBeta;
        return Result(fields, source);
    }

    private SensorLineReading ReadSentence(ReadOnlySpan<byte> text, string source)
    {
        NmeaSentence sentence = NmeaSentence.Read(text, out int column, out string? problem);
        if (problem is not null)
        {
            return Wrong(source, column, problem);
        }

        ReadOnlySpan<byte> type = sentence.Type;
        if (type.SequenceEqual("HDT"u8))
        {
            return Heading(NmeaFields.Number(sentence[1]), SensorNorth.True);
        }

        if (type.SequenceEqual("HDG"u8))
        {
            // Deviation is the compass's own error; with it the heading is magnetic.
            return Heading(NmeaFields.Number(sentence[1]) + (Signed(sentence[2], sentence[3]) ?? 0.0), SensorNorth.Magnetic);
        }

        return type.SequenceEqual("XDR"u8) ? Transducers(sentence) : default;
    }

    private SensorLineReading Heading(double? degrees, SensorNorth north) => degrees is >= -360.0 and <= 720.0
        ? new(new SensorSample(Angle.FromDegrees(degrees.Value).WrappedToTurn(), null, null, options.North == SensorNorth.Unknown ? north : options.North))
        : default;

    /// <summary>Quadruples of kind, value, unit, name; angles in degrees called pitch or roll.</summary>
    private static SensorLineReading Transducers(NmeaSentence sentence)
    {
        Angle? pitch = null, roll = null;
        for (int field = 1; field + 3 < 64 && !sentence[field].IsEmpty; field += 4)
        {
            if (sentence[field].SequenceEqual("A"u8) && sentence[field + 2].SequenceEqual("D"u8) && NmeaFields.Number(sentence[field + 1]) is >= -180.0 and <= 180.0 and double degrees)
            {
                ReadOnlySpan<byte> name = sentence[field + 3];
                pitch = Ascii.EqualsIgnoreCase(name, "PITCH"u8) || Ascii.EqualsIgnoreCase(name, "PTCH"u8) ? Angle.FromDegrees(Math.Clamp(degrees, -90.0, 90.0)) : pitch;
                roll = Ascii.EqualsIgnoreCase(name, "ROLL"u8) ? Angle.FromDegrees(degrees) : roll;
            }
        }

        return pitch is null ? default : new(new SensorSample(null, pitch, roll, SensorNorth.Unknown));
    }

    private static double? Signed(ReadOnlySpan<byte> number, ReadOnlySpan<byte> side) =>
        NmeaFields.Number(number) is { } degrees ? side.SequenceEqual("W"u8) ? -degrees : degrees : null;

    private SensorLineReading Result(SensorFields fields, string source) =>
        fields.Read(options, out SensorSample sample) is { } problem ? Wrong(source, 1, problem) : new(sample);

    private static SensorLineReading Wrong(string source, int column, string message) => new(null, new ParseError(source, 0, column, message));
}
