using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Cockpit.Core.Formats;

/// <summary>One mistake in an input, told so that a person can find and mend it.</summary>
/// <param name="Source">File name or feed.</param>
/// <param name="Line">Line number from 1; 0 where the whole input is meant.</param>
/// <param name="Column">Column number from 1; 0 where the whole line is meant.</param>
/// <param name="Message">What was found, what was expected, what to do; one sentence.</param>
public sealed record ParseError(string Source, int Line, int Column, string Message)
{
    /// <summary>The mistake as one line for people; of names and paths in it only what can be shown.</summary>
    public override string ToString() => TextFilter.Clean(Line == 0
        ? $"{Source}: {Message}"
        : Column == 0
            ? string.Create(CultureInfo.InvariantCulture, $"{Source}:{Line}: {Message}")
            : string.Create(CultureInfo.InvariantCulture, $"{Source}:{Line}:{Column}: {Message}"));
}

/// <summary>A value that was read, or why it could not be.</summary>
/// <typeparam name="T">What is read.</typeparam>
public readonly record struct Parsed<T>
    where T : notnull
{
    private Parsed(T? value, ParseError? error)
    {
        Value = value;
        Error = error;
    }

    /// <summary>The value; null when there is an error.</summary>
    public T? Value { get; }

    /// <summary>The mistake; null when there is a value.</summary>
    public ParseError? Error { get; }

    /// <summary>Whether a value was read; says so to the compiler too.</summary>
    public bool Try([NotNullWhen(true)] out T? value, [NotNullWhen(false)] out ParseError? error)
    {
        value = Value;
        error = Error ?? (Value is null ? new ParseError("input", 0, 0, "nothing was read") : null);
        return error is null;
    }

    /// <summary>A value was read.</summary>
    public static implicit operator Parsed<T>(T value) => new(value, null);

    /// <summary>A mistake was found.</summary>
    public static implicit operator Parsed<T>(ParseError error) => new(default, error);
}
