using System.Collections.Immutable;
using Cockpit.Core.Orbit;

namespace Cockpit.Core.Formats.Elements;

/// <summary>What a file of elements held: the good sets, and the mistakes beside them.</summary>
/// <param name="Sets">Every good set in the order of the file, doubles included.</param>
/// <param name="Errors">The mistakes in the order of the file, at most <see cref="MostErrors"/> and the one that ended the reading.</param>
/// <param name="FurtherErrors">How many more mistakes there were.</param>
public sealed record ElementFile(ImmutableArray<ElementSet> Sets, ImmutableArray<ParseError> Errors, int FurtherErrors)
{
    /// <summary>Mistakes that are kept with their text; a wrong file would else fill the memory.</summary>
    public const int MostErrors = 1000;

    /// <summary>Most characters of one file: 64 Mi.</summary>
    public const long MostCharacters = 64L * 1024 * 1024;
}

/// <summary>How strictly elements are read.</summary>
/// <param name="AcceptWrongChecksums">Use a TLE line whose checksum digit is wrong; only for published test data that carries such lines.</param>
public sealed record ElementReading(bool AcceptWrongChecksums = false)
{
    /// <summary>Refuse wrong checksums.</summary>
    public static ElementReading Strict { get; } = new();
}
