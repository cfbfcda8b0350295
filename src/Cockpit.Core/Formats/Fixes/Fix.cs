using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Fixes;

/// <summary>Where and when a receiver of navigation satellites says that it is.</summary>
/// <param name="Latitude">North positive, [-90°, 90°], WGS 84.</param>
/// <param name="Longitude">East positive, [-180°, 180°].</param>
/// <param name="HeightMetres">Above the ellipsoid, metres; null where it is not told.</param>
/// <param name="DoubtMetres">How far the place may be off, metres, by the receiver's own word; null where it is not told.</param>
/// <param name="Utc">The instant that the place belongs to; null where the day is not known yet.</param>
public readonly record struct Fix(Angle Latitude, Angle Longitude, double? HeightMetres, double? DoubtMetres, DateTimeOffset? Utc);

/// <summary>What one line of such a receiver says; a line of another matter says nothing.</summary>
/// <param name="Fix">Place and time; null where it holds none.</param>
/// <param name="IsWithoutFix">The receiver says that it does not know its place.</param>
/// <param name="Told">Something about the receiver for people; null where there is nothing.</param>
/// <param name="Error">What is wrong with the line; null where nothing is.</param>
public readonly record struct FixReading(Fix? Fix = null, bool IsWithoutFix = false, string? Told = null, ParseError? Error = null);

/// <summary>Reads the lines of one receiver, in their order; what came before may matter for what comes.</summary>
public interface IFixReader
{
    /// <summary>Longest line that is read, bytes without its end.</summary>
    int LongestLine { get; }

    /// <summary>Reads a line; never throws.</summary>
    /// <param name="line">Without its end.</param>
    /// <param name="source">Who sent it, for the error.</param>
    FixReading Read(ReadOnlySpan<byte> line, string source);
}
