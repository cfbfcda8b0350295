using System.Collections.Immutable;

namespace Cockpit.Core.Formats.Options;

/// <summary>Reads minutes with commas between them, negative ones too: -10,0,1440.</summary>
public static class MinutesText
{
    private const double MostMinutes = 1e8; // some 190 years

    /// <summary>Reads one or more numbers of minutes.</summary>
    /// <param name="text">The numbers.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<ImmutableArray<double>> Read(string text, string source)
    {
        var minutes = ImmutableArray.CreateBuilder<double>();
        foreach (string item in text.Split(','))
        {
            if (!NumberText.TryRead(item, out double number) || Math.Abs(number) > MostMinutes)
            {
                return new ParseError(source, 0, 0, $"{Quoted.Of(item)} is not a number of minutes; write it like {source}=-10,0,1440");
            }

            minutes.Add(number);
        }

        return minutes.ToImmutable();
    }
}
