using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Cockpit.Screen.Themes;

/// <summary>Reads a theme from JSON text.</summary>
/// <remarks>
/// <code>{ "name": "night", "says": "...", "ground": "#000000", "roles": { "Plain": { "text": "#804000", "ground": "#000000",
/// "text16": "yellow", "ground16": "black", "style": "bold reverse underline faint" }, ... } }</code>
/// Colours are #rrggbb or "terminal"; text16 and ground16, for terminals with 16 colours, are names like "red", "bright-red",
/// "dark-grey". A role that is not named is written like Plain.
/// </remarks>
public static class ThemeFile
{
    /// <summary>Largest theme file that is read, bytes.</summary>
    public const int LargestBytes = 64 * 1024;

    private static readonly JsonDocumentOptions Options = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = 8 };

    /// <summary>Reads a theme.</summary>
    /// <param name="text">The JSON text.</param>
    /// <param name="source">Name of the file, for messages.</param>
    /// <returns>The theme, or null with one sentence that says what is wrong and where.</returns>
    public static (Theme? Theme, string? Trouble) Read(string text, string source)
    {
        try
        {
            return JsonNode.Parse(text, documentOptions: Options) is JsonObject root
                ? (Build(root), null)
                : (null, $"{source}: a theme is a JSON object.");
        }
        catch (JsonException e)
        {
            long line = (e.LineNumber ?? 0) + 1;
            long column = (e.BytePositionInLine ?? 0) + 1;
            return (null, string.Create(CultureInfo.InvariantCulture, $"{source}:{line}:{column}: not valid JSON."));
        }
        catch (FormatException e)
        {
            return (null, $"{source}: {e.Message}");
        }
    }

    private static Theme Build(JsonObject root)
    {
        string name = Word(root, "name") ?? throw new FormatException("\"name\" is missing.");
        if (root["roles"] is not JsonObject roles)
        {
            throw new FormatException("\"roles\" is missing.");
        }

        Rgb? ground = Colour(root, "ground", null);
        RoleStyle plain = roles["Plain"] is JsonObject first
            ? StyleOf(first, new RoleStyle(Ground: ground, Ground16: Sixteenth(root, "ground16", null)))
            : throw new FormatException("the role \"Plain\" is missing.");
        RoleStyle like = plain with { Bold = false, Reverse = false, Underline = false, Faint = false };
        foreach (string role in roles.Select(pair => pair.Key).Where(key => !Enum.TryParse<Role>(key, out _)))
        {
            throw new FormatException($"there is no role \"{role}\".");
        }

        return new Theme(name, Word(root, "says") ?? "", [.. Enum.GetValues<Role>().Select(role => roles[role.ToString()] is JsonObject o ? StyleOf(o, like) : plain)]);
    }

    private static RoleStyle StyleOf(JsonObject o, RoleStyle like)
    {
        string[] styles = (Word(o, "style") ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        foreach (string style in styles.Where(style => style is not ("bold" or "reverse" or "underline" or "faint")))
        {
            throw new FormatException($"\"{style}\" is no style; there are bold, reverse, underline, faint.");
        }

        return new RoleStyle(
            Colour(o, "text", like.Text),
            Colour(o, "ground", like.Ground),
            Sixteenth(o, "text16", o["text"] is null ? like.Text16 : null),
            Sixteenth(o, "ground16", o["ground"] is null ? like.Ground16 : null),
            styles.Contains("bold", StringComparer.Ordinal),
            styles.Contains("reverse", StringComparer.Ordinal),
            styles.Contains("underline", StringComparer.Ordinal),
            styles.Contains("faint", StringComparer.Ordinal));
    }

    private static string? Word(JsonObject o, string key) => o[key] switch
    {
        null => null,
        JsonValue value when value.TryGetValue(out string? word) => word,
        _ => throw new FormatException($"\"{key}\" must be text."),
    };

    private static Rgb? Colour(JsonObject o, string key, Rgb? otherwise)
    {
        string? word = Word(o, key);
        if (word is null)
        {
            return otherwise;
        }

        if (string.Equals(word, "terminal", StringComparison.Ordinal))
        {
            return null;
        }

        return word.Length == 7 && word[0] == '#' && int.TryParse(word.AsSpan(1), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out int rgb)
            ? new Rgb((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb)
            : throw new FormatException($"\"{word}\" is no colour; write #rrggbb or terminal.");
    }

    private static Sixteen? Sixteenth(JsonObject o, string key, Sixteen? otherwise)
    {
        if (Word(o, key) is not { } word)
        {
            return otherwise;
        }

        bool known = Enum.TryParse(word.Replace("-", "", StringComparison.Ordinal), ignoreCase: true, out Sixteen colour) && Enum.IsDefined(colour) && !char.IsAsciiDigit(word[0]);
        return known ? colour : throw new FormatException($"\"{word}\" is none of the sixteen colours, such as red, bright-red, dark-grey.");
    }
}
