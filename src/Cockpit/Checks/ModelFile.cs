using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Cockpit.Core.Formats;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Checks;

/// <summary>Hands and worlds of the simulation as JSON: one object, every parameter optional, what is not given stays as in the named model.</summary>
/// <remarks>Names are those of the records in snake_case; "like" names the hand or world that the rest is changed from.</remarks>
public static class ModelFile
{
    private const string Like = "like";

    /// <summary>Reads a hand.</summary>
    /// <param name="source">Name of the file, for complaints.</param>
    /// <param name="text">Its text.</param>
    public static Parsed<HandSkill> Hand(string source, string text) => Read(
        source,
        text,
        name => name switch { null or "novice" => HandSkill.Novice, "practised" => HandSkill.Practised, _ => null },
        "novice or practised",
        ModelJson.Default.HandSkill);

    /// <summary>Reads a world.</summary>
    /// <param name="source">Name of the file, for complaints.</param>
    /// <param name="text">Its text.</param>
    public static Parsed<WorldModel> World(string source, string text) => Read(
        source,
        text,
        name => name switch { null or "honest" => WorldModel.Honest, "today" => WorldModel.Today, _ => null },
        "honest or today",
        ModelJson.Default.WorldModel);

    private static Parsed<T> Read<T>(string source, string text, Func<string?, T?> named, string names, JsonTypeInfo<T> type)
        where T : class
    {
        try
        {
            if (JsonNode.Parse(text) is not JsonObject given)
            {
                return Fault<T>(source, 1, 1, "expected one JSON object with parameters, for example {\"like\": \"novice\", \"lapse\": 0.1}");
            }

            string? like = given.TryGetPropertyValue(Like, out JsonNode? asked) ? asked?.GetValue<string>() : null;
            if (named(like) is not { } model || JsonSerializer.SerializeToNode(model, type) is not JsonObject whole)
            {
                return Fault<T>(source, 1, 1, $"\"like\" is {Quoted.Of(like ?? "")}: expected {names}");
            }

            foreach ((string name, JsonNode? value) in given)
            {
                if (string.Equals(name, Like, StringComparison.Ordinal))
                {
                    continue;
                }

                if (!whole.ContainsKey(name))
                {
                    return Fault<T>(source, 1, 1, $"there is no parameter {Quoted.Of(name)}: the parameters are {string.Join(", ", whole.Select(p => p.Key))}");
                }

                whole[name] = value?.DeepClone();
            }

            return whole.Deserialize(type) is { } read ? read : Fault<T>(source, 1, 1, "expected one JSON object");
        }
        catch (JsonException bad)
        {
            return Fault<T>(source, (int)(bad.LineNumber ?? 0) + 1, (int)(bad.BytePositionInLine ?? 0) + 1, $"not JSON with the right kinds of values{Where(bad)}");
        }
        catch (InvalidOperationException)
        {
            return Fault<T>(source, 1, 1, $"\"like\" is a name: expected {names}");
        }
    }

    private static string Where(JsonException bad) => bad.Path is null or "$" or "" ? "" : string.Create(CultureInfo.InvariantCulture, $": see {bad.Path}");

    private static Parsed<T> Fault<T>(string source, int line, int column, string message)
        where T : class => new ParseError(source, line, column, message);
}

/// <summary>The JSON code of hands and worlds, generated when the program is built.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower)]
[JsonSerializable(typeof(HandSkill))]
[JsonSerializable(typeof(WorldModel))]
internal sealed partial class ModelJson : JsonSerializerContext;
