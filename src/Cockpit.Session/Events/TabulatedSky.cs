using System.Collections.Immutable;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.Events;

/// <summary>Where the satellite was, as a table in place of elements and station: for a session whose place nobody is to know.</summary>
/// <param name="Epoch">Epoch of the elements that it was made from, for their age, UTC.</param>
/// <param name="From">The instant of the first row, UTC, a whole second; a row each second.</param>
/// <param name="Pass">The pass of the session.</param>
/// <param name="AzimuthRad">True azimuth, radians.</param>
/// <param name="ElevationRad">Elevation, radians.</param>
/// <param name="RangeKm">Distance, km.</param>
/// <param name="RangeRateKmPerSec">Its growth, km/s.</param>
public sealed record TabulatedSky(
    DateTimeOffset Epoch,
    DateTimeOffset From,
    Pass Pass,
    ImmutableArray<double> AzimuthRad,
    ImmutableArray<double> ElevationRad,
    ImmutableArray<double> RangeKm,
    ImmutableArray<double> RangeRateKmPerSec) : ITrack
{
    /// <summary>Most rows: three hours and a half, so that the line of a journal that holds them is not too long.</summary>
    public const int MostRows = 12_000;

    private const double FarthestKm = 1e6;
    private const double FastestKmPerSec = 100.0;

    /// <summary>Whether it can be used: as many numbers in each column, all within reason.</summary>
    public bool IsUsable() =>
        !AzimuthRad.IsDefaultOrEmpty && AzimuthRad.Length <= MostRows && Pass is not null && IsDate(From) && IsDate(Epoch) && From.Ticks % TimeSpan.TicksPerSecond == 0
        && Within(AzimuthRad, 0.0, Math.Tau) && Within(ElevationRad, -Math.PI / 2.0, Math.PI / 2.0)
        && Within(RangeKm, 0.0, FarthestKm) && Within(RangeRateKmPerSec, -FastestKmPerSec, FastestKmPerSec)
        && Pass.Aos.Utc >= From && Pass.Aos.Utc <= Pass.Tca.Utc && Pass.Tca.Utc <= Pass.Los.Utc && Pass.Los.Utc <= From.AddSeconds(AzimuthRad.Length);

    /// <inheritdoc/>
    /// <remarks>Only whole seconds have an answer.</remarks>
    public LookAngles? At(DateTimeOffset utc)
    {
        long ticks = (utc - From).Ticks;
        long row = ticks / TimeSpan.TicksPerSecond;
        return ticks < 0 || ticks % TimeSpan.TicksPerSecond != 0 || row >= AzimuthRad.Length
            ? null
            : new LookAngles(Angle.FromRadians(AzimuthRad[(int)row]), Angle.FromRadians(ElevationRad[(int)row]), RangeKm[(int)row], RangeRateKmPerSec[(int)row]);
    }

    /// <summary>In the years of satellites; seconds and days can be added to it.</summary>
    private static bool IsDate(DateTimeOffset utc) => utc.Year is >= 1957 and <= 2200;

    // Written so that NaN is outside.
    private bool Within(ImmutableArray<double> column, double least, double most) =>
        !column.IsDefault && column.Length == AzimuthRad.Length && column.All(value => value >= least && value <= most);
}
