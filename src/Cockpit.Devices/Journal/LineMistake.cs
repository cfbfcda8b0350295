using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Journal;

/// <summary>Why a line with a good checksum is no event: what stands where, and what was expected. The words of the JSON library are for programmers.</summary>
internal static class LineMistake
{
    private const int MostShown = 40;

    /// <summary>A line that is not JSON.</summary>
    /// <param name="trouble">What the reader of JSON met.</param>
    internal static string NotJson(JsonException trouble) => At(trouble.BytePositionInLine ?? 0, "here the line is no longer JSON");

    /// <summary>A member of the line that is not what belongs there.</summary>
    /// <param name="line">The line.</param>
    /// <param name="member">Its name.</param>
    /// <param name="start">Where its value begins, bytes.</param>
    internal static string NotThis(ReadOnlySpan<byte> line, string member, int start) =>
        At(start, $"{Quoted.Of(member)} cannot be {Shown(line[start..])}");

    /// <summary>A value inside the data.</summary>
    /// <param name="line">The line.</param>
    /// <param name="data">Where its data stand.</param>
    /// <param name="type">The type of the event.</param>
    /// <param name="trouble">What the reader of JSON says.</param>
    internal static string InData(ReadOnlySpan<byte> line, Range data, JsonTypeInfo type, JsonException trouble)
    {
        int start = data.Start.Value;
        string path = trouble.Path ?? "$";
        (int offset, JsonTokenType kind, string where) = Find(line[data], path);
        string name = where.Length > 2 ? where[2..] : "data";
        return At(start + offset, trouble is EventJsonException own ? $"{name}: {own.Message}"
            : kind is JsonTokenType.StartObject && Missing(line[data], path, type) is { } missing ? $"{name} has no {missing}"
            : $"{name} cannot be {Shown(line[(start + offset)..])}");
    }

    private static string At(long offset, string what) => string.Create(CultureInfo.InvariantCulture, $"column {offset + 1}: {what}");

    /// <summary>Where the value of a path begins; a path may lack its beginning. The data themselves where there is none.</summary>
    private static (int Offset, JsonTokenType Kind, string Path) Find(ReadOnlySpan<byte> data, string path)
    {
        if (path.Length <= 1)
        {
            return (0, JsonTokenType.StartObject, "");
        }

        Utf8JsonReader json = new(data);
        List<string> above = ["$"];
        while (json.Read())
        {
            if (json.TokenType is not JsonTokenType.PropertyName)
            {
                continue;
            }

            int depth = json.CurrentDepth;
            above.RemoveRange(Math.Min(depth, above.Count), Math.Max(0, above.Count - depth));
            above.Add(json.GetString() ?? "");
            string here = string.Join('.', above);
            json.Read();
            if (here.EndsWith(path[1..].Split('[')[0], StringComparison.Ordinal))
            {
                return ((int)json.TokenStartIndex, json.TokenType, here);
            }
        }

        return (0, JsonTokenType.None, "");
    }

    /// <summary>The first required value that the object at a path does not have; null when it has all.</summary>
    private static string? Missing(ReadOnlySpan<byte> data, string path, JsonTypeInfo type)
    {
        JsonElement found = JsonElement.Parse(data);
        JsonTypeInfo info = type;
        foreach (string name in path.Split('.').Skip(1))
        {
            if (info.Properties.FirstOrDefault(property => string.Equals(property.Name, name, StringComparison.Ordinal)) is not { } next
                || !found.TryGetProperty(name, out found) || found.ValueKind != JsonValueKind.Object)
            {
                return null;
            }

            info = EventJson.For(next.PropertyType);
        }

        return info.Properties.FirstOrDefault(property => property.IsRequired && !found.TryGetProperty(property.Name, out _))?.Name;
    }

    /// <summary>The value that begins here, for people.</summary>
    private static string Shown(ReadOnlySpan<byte> rest)
    {
        Utf8JsonReader json = new(rest, isFinalBlock: false, default);
        if (!json.Read())
        {
            return "read";
        }

        return json.TokenType switch
        {
            JsonTokenType.StartObject => "an object",
            JsonTokenType.StartArray => "a list",
            _ => Quoted.Of(Encoding.UTF8.GetString(rest[..(int)Math.Min(json.BytesConsumed, MostShown)]).Trim('"')),
        };
    }
}
