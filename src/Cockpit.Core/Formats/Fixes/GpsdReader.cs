using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Fixes;

/// <summary>Place and time in the reports of gpsd, one JSON object a line.</summary>
/// <remarks>Source: gpsd_json(5) of gpsd 3.22: classes TPV, DEVICES, VERSION, ERROR; a line has at most 10240 characters (gps.h, GPS_JSON_RESPONSE_MAX). Other classes are passed over.</remarks>
public sealed class GpsdReader : IFixReader
{
    /// <summary>The question that makes it report, with its line end.</summary>
    public const string Watch = "?WATCH={\"enable\":true,\"json\":true};\n";

    private const int Simulated = 8;
    private const int Known = 3;

    /// <inheritdoc/>
    public int LongestLine => 10240;

    /// <inheritdoc/>
    public FixReading Read(ReadOnlySpan<byte> line, string source)
    {
        ReadOnlySpan<byte> text = line.Trim(" \t\r\0"u8);
        if (text.IsEmpty)
        {
            return default;
        }

        try
        {
            return Members.Of(text) is { } members ? Meaning(members, source) : Wrong(source, 1, "no JSON object; is that gpsd? Its port is 2947");
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException or FormatException)
        {
            // Cut off, or text that is no Unicode.
            return Wrong(source, 1 + (int)Math.Clamp((trouble as JsonException)?.BytePositionInLine ?? 0, 0, text.Length), "not one complete JSON object; is that gpsd? Its port is 2947");
        }
    }

    private static FixReading Meaning(in Members said, string source) => said.Class switch
    {
        "TPV" => Place(said),
        "DEVICES" when said.Devices == 0 => new FixReading(Told: "has no receiver; plug one in, and see that gpsd knows of it"),
        "VERSION" when said.Major is { } major && (int)major != Known => new FixReading(Told: string.Create(CultureInfo.InvariantCulture, $"speaks version {major:0} of the protocol, only {Known} is known here")),
        "ERROR" => Wrong(source, 1, $"gpsd says {Quoted.Of(said.Message)}"),
        null => Wrong(source, 1, "a JSON object without a class; is that gpsd? Its port is 2947"),
        _ => default,
    };

    private static FixReading Place(in Members said)
    {
        bool good = said is { Mode: 2 or 3, Latitude: >= -90 and <= 90, Longitude: >= -180 and <= 180 } && said.Status != Simulated;
        return good && said is { Latitude: { } north, Longitude: { } east }
            ? new FixReading(new Fix(Angle.FromDegrees(north), Angle.FromDegrees(east), said.Mode == 3 && said.Height is >= -1000 and <= 20000 ? said.Height : null, said.Doubt is >= 0 and < 1e6 ? said.Doubt : null, said.Utc))
            : new FixReading(IsWithoutFix: true);
    }

    private static FixReading Wrong(string source, int column, string message) => new(Error: new ParseError(source, 0, column, message));

    /// <summary>The members of a report that mean something here; null where they are missing or of another kind.</summary>
    private struct Members
    {
        public string? Class;
        public string? Message;
        public double? Mode, Status, Latitude, Longitude, Height, Doubt, Major;
        public DateTimeOffset? Utc;
        public int? Devices;

        public static Members? Of(ReadOnlySpan<byte> text)
        {
            Utf8JsonReader json = new(text);
            if (!json.Read() || json.TokenType != JsonTokenType.StartObject)
            {
                return null;
            }

            Members members = default;
            while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
            {
                string name = json.GetString() ?? "";
                json.Read();
                members.Take(name, ref json);
            }

            // Anything behind the object makes the reader complain.
            json.Read();
            return members;
        }

        private void Take(string name, ref Utf8JsonReader json)
        {
            double? number = json.TokenType == JsonTokenType.Number && json.TryGetDouble(out double value) && double.IsFinite(value) ? value : null;
            switch (name)
            {
                case "class": Class = Word(ref json); break;
                case "message": Message = Word(ref json) ?? ""; break;
                case "mode": Mode = number; break;
                case "status": Status = number; break;
                case "lat": Latitude = number; break;
                case "lon": Longitude = number; break;
                case "altHAE": Height = number; break;
                case "eph": Doubt = number; break;
                case "proto_major": Major = number; break;
                case "time": Utc = json.TokenType == JsonTokenType.String ? UtcText.Read(json.ValueSpan) : null; break;
                case "devices": Devices = Count(ref json); return;
            }

            json.Skip();
        }

        private static string? Word(ref Utf8JsonReader json) => json.TokenType == JsonTokenType.String ? json.GetString() : null;

        private static int? Count(ref Utf8JsonReader json)
        {
            if (json.TokenType != JsonTokenType.StartArray)
            {
                json.Skip();
                return null;
            }

            int count = 0;
            while (json.Read() && json.TokenType != JsonTokenType.EndArray)
            {
                count++;
                json.Skip();
            }

            return count;
        }
    }
}
