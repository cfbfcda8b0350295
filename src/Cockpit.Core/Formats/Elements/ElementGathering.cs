using System.Collections.Immutable;
using Cockpit.Core.Orbit;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Collects good sets and mistakes while one input is read.</summary>
/// <param name="source">Name of the input, for the mistakes.</param>
internal sealed class ElementGathering(string source)
{
    private readonly ImmutableArray<ElementSet>.Builder _sets = ImmutableArray.CreateBuilder<ElementSet>();
    private readonly ImmutableArray<ParseError>.Builder _errors = ImmutableArray.CreateBuilder<ParseError>();
    private int _further;

    internal string Source => source;

    internal bool IsEmpty => _sets.Count == 0 && _errors.Count == 0;

    /// <summary>Takes a good set. Its name goes to screens, files and calendars: here it loses what they would obey.</summary>
    internal void Add(ElementSet set) => _sets.Add(set with { Name = TextFilter.Clean(set.Name) });

    internal void Complain(int line, int column, string message)
    {
        if (_errors.Count < ElementFile.MostErrors)
        {
            _errors.Add(new ParseError(source, line, column, message));
        }
        else
        {
            _further++;
        }
    }

    /// <summary>A mistake that ends the reading; always listed.</summary>
    internal void Conclude(int line, int column, string message) => _errors.Add(new ParseError(source, line, column, message));

    internal ElementFile ToFile() => new(_sets.ToImmutable(), _errors.ToImmutable(), _further);
}
