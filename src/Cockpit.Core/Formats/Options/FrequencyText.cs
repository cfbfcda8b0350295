using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Options;

/// <summary>Reads a frequency with its unit: 1701.5MHz, 1.7GHz, 137100kHz, 1700000000Hz.</summary>
public static class FrequencyText
{
    private const double HighestHertz = 1e12;

    /// <summary>Reads a positive frequency up to 1 THz; the unit must be written, for a bare number could be any.</summary>
    /// <param name="text">A number with Hz, kHz, MHz or GHz behind it, small or capital letters alike.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<Frequency> Read(string text, string source)
    {
        double unit = NumberText.TrySplit(text, out double number, out string name) ? HertzOf(name) : 0.0;
        double hertz = number * unit;
        return hertz is > 0.0 and <= HighestHertz
            ? new Frequency(hertz)
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a frequency; write a positive number with its unit, like 1701.5MHz or 1.7GHz");
    }

    private static double HertzOf(string unit) => unit.ToUpperInvariant() switch
    {
        "HZ" => 1.0,
        "KHZ" => 1e3,
        "MHZ" => 1e6,
        "GHZ" => 1e9,
        _ => 0.0,
    };
}
