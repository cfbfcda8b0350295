using Cockpit.Core.Units;

namespace Cockpit.Core.Formats;

/// <summary>Reads an angle in degrees: 5, 5deg, 5°.</summary>
public static class AngleText
{
    /// <summary>Reads an angle and checks its range.</summary>
    /// <param name="text">A number, with deg or ° behind it or nothing.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    /// <param name="lowestDegrees">The smallest angle allowed, degrees.</param>
    /// <param name="highestDegrees">The largest angle allowed, degrees.</param>
    public static Parsed<Angle> Read(string text, string source, double lowestDegrees = -360.0, double highestDegrees = 360.0)
    {
        if (!NumberText.TrySplit(text, out double degrees, out string unit) || unit is not ("" or "deg" or "°"))
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not an angle; write degrees like 5 or 5deg");
        }

        return degrees >= lowestDegrees && degrees <= highestDegrees
            ? Angle.FromDegrees(degrees)
            : new ParseError(source, 0, 0, FormattableString.Invariant($"{Quoted.Of(text)} is outside {lowestDegrees} to {highestDegrees} degrees"));
    }
}
