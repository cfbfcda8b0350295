using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Phone;

/// <summary>Reads what the page says: one JSON object a frame. Pure.</summary>
public static class PhoneMessageReader
{
    /// <summary>Longest frame, bytes.</summary>
    public const int LongestFrame = 512;

    private const double OldestMs = 600_000.0;
    private const long LargestNumber = 1L << 53;
    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 4 };

    /// <summary>Reads a frame.</summary>
    /// <param name="text">UTF-8.</param>
    /// <param name="problem">What is wrong with it, a few words; null when nothing is.</param>
    /// <returns>Null where something is wrong.</returns>
    public static PhoneMessage? Read(ReadOnlyMemory<byte> text, out string? problem)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(text, Options);
            return Read(document.RootElement, out problem);
        }
        catch (Exception bad) when (bad is JsonException or InvalidOperationException)
        {
            // The second where the text of a name or value is no UTF-8.
            problem = "not one complete JSON object";
            return null;
        }
    }

    /// <summary>Reads an object.</summary>
    /// <inheritdoc cref="Read(ReadOnlyMemory{byte}, out string)"/>
    internal static PhoneMessage? Read(JsonElement said, out string? problem)
    {
        problem = null;
        if (said.ValueKind != JsonValueKind.Object || TextOf(said, "t") is not { } kind)
        {
            problem = "no object with a type";
            return null;
        }

        return kind switch
        {
            "hello" => new PhoneMessage.Hello(TextOf(said, "key") ?? ""),
            "o" => Turned(said, ref problem),
            "hidden" => new PhoneMessage.Visibility(IsHidden: true),
            "shown" => new PhoneMessage.Visibility(IsHidden: false),
            "sensor" => new PhoneMessage.Sensor(Trouble(TextOf(said, "is"))),
            "press" => Press(said, ref problem),
            "drawn" => NumberOf(said, "n", 0, LargestNumber, ref problem) is { } n && problem is null ? new PhoneMessage.Drawn((long)n) : Wrong(ref problem, "drawn without its number"),
            "bye" => new PhoneMessage.Bye(),
            _ => new PhoneMessage.Unknown(),
        };
    }

    private static PhoneMessage? Turned(JsonElement said, ref string? problem)
    {
        double? number = NumberOf(said, "n", 0, LargestNumber, ref problem);
        double? alpha = NumberOf(said, "a", -360, 720, ref problem);
        double? beta = NumberOf(said, "b", -360, 360, ref problem);
        double? gamma = NumberOf(said, "g", -360, 360, ref problem);
        double? age = NumberOf(said, "age", 0, OldestMs, ref problem);
        double? heading = NumberOf(said, "h", 0, 360, ref problem);
        if (problem is not null || number is null || age is null)
        {
            return Wrong(ref problem, "an orientation without number or age");
        }

        bool absolute = string.Equals(TextOf(said, "kind"), "abs", StringComparison.Ordinal);
        bool shaking = said.TryGetProperty("shaking", out JsonElement shakes) && shakes.ValueKind == JsonValueKind.True;
        return new PhoneMessage.Turned((long)number.Value, absolute, alpha, beta, gamma, TimeSpan.FromMilliseconds(age.Value), shaking, heading);
    }

    private static PhoneMessage? Press(JsonElement said, ref string? problem)
    {
        double? number = NumberOf(said, "n", 0, LargestNumber, ref problem);
        PhoneButton? button = TextOf(said, "key") switch
        {
            "peaked" => PhoneButton.Peaked,
            "moved" => PhoneButton.Moved,
            "notmoved" => PhoneButton.NotMoved,
            "here" => PhoneButton.Here,
            _ => null,
        };
        return problem is null && number is { } n && button is { } pressed ? new PhoneMessage.Press(pressed, (long)n) : Wrong(ref problem, "a button that is none, or without its number");
    }

    private static string? Trouble(string? word) => word switch
    {
        "none" => "tells no orientation: it has no sensor for it, or the browser gives none",
        "denied" => "does not let the page use its sensors: allow it in the settings of the browser, and load the page again",
        _ => null,
    };

    private static PhoneMessage? Wrong(ref string? problem, string words)
    {
        problem ??= words;
        return null;
    }

    private static string? TextOf(JsonElement said, string name) =>
        said.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    /// <summary>A number in its range; null where there is none, or null.</summary>
    private static double? NumberOf(JsonElement said, string name, double least, double most, ref string? problem)
    {
        if (!said.TryGetProperty(name, out JsonElement value) || value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Number || !value.TryGetDouble(out double number) || !(number >= least && number <= most))
        {
            problem ??= string.Create(CultureInfo.InvariantCulture, $"{Quoted.Of(name)} is no number from {least:0} to {most:0}");
            return null;
        }

        return number;
    }
}
