using Cockpit.Core.Formats;

namespace Cockpit.Settings.Stored;

/// <summary>What makes a value right; each gives the sentence why it is not, or null.</summary>
internal static class SettingChecks
{
    public static Func<string, string?> Between(double least, double most, string unit) => text =>
        NumberText.TryRead(text, out double number) && number >= least && number <= most
            ? null
            : FormattableString.Invariant($"{Quoted.Of(text)} is not a number from {least} to {most} {unit}").TrimEnd();

    public static Func<string, string?> OneOf(params string[] words) => text =>
        words.Contains(text, StringComparer.Ordinal) ? null : $"{Quoted.Of(text)} is not known; choose {string.Join(" or ", words)}";

    /// <summary>As a reader of option texts would have it.</summary>
    public static Func<string, string?> Reads<T>(Func<string, string, Parsed<T>> read)
        where T : notnull => text => read(text, "").Try(out _, out ParseError? error) ? null : error.Message;

    public static string? Anything(string text) => string.IsNullOrWhiteSpace(text) ? "the text is empty" : null;

    public static string? Zone(string text) => ZoneNames.Find(text) is not null
        ? null
        : $"{Quoted.Of(text)} is no time zone that this computer knows; write it like \"Europe/Berlin\"";

    public static string? WebAddress(string text) => Uri.TryCreate(text, UriKind.Absolute, out Uri? address) && address.Scheme is "http" or "https"
        ? null
        : $"{Quoted.Of(text)} is not the address of a web page; write it like \"https://elements.example/weather.txt\"";
}
