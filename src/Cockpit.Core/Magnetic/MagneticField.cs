using Cockpit.Core.Units;

namespace Cockpit.Core.Magnetic;

/// <summary>The main field of the earth at a place and time, with its yearly change; geodetic axes.</summary>
/// <param name="Year">Decimal year.</param>
/// <param name="North">X, nT.</param>
/// <param name="East">Y, nT.</param>
/// <param name="Down">Z, nT.</param>
/// <param name="NorthRate">Yearly change of X, nT.</param>
/// <param name="EastRate">Yearly change of Y, nT.</param>
/// <param name="DownRate">Yearly change of Z, nT.</param>
public readonly record struct MagneticField(
    double Year, double North, double East, double Down, double NorthRate, double EastRate, double DownRate)
{
    /// <summary>H, the horizontal strength that turns a compass, nT.</summary>
    public double Horizontal => Math.Sqrt((North * North) + (East * East));

    /// <summary>F, the whole strength, nT.</summary>
    public double Total => Math.Sqrt((North * North) + (East * East) + (Down * Down));

    /// <summary>Where a compass points: magnetic north from true north, east positive.</summary>
    public Angle Declination => Angle.FromRadians(Math.Atan2(East, North));

    /// <summary>Dip below the horizontal, positive in the north.</summary>
    public Angle Inclination => Angle.FromRadians(Math.Atan2(Down, Horizontal));

    /// <summary>Yearly change of H, nT.</summary>
    public double HorizontalRate => ((North * NorthRate) + (East * EastRate)) / Horizontal;

    /// <summary>Yearly change of F, nT.</summary>
    public double TotalRate => ((North * NorthRate) + (East * EastRate) + (Down * DownRate)) / Total;

    /// <summary>Yearly change of the declination.</summary>
    public Angle DeclinationRate => Angle.FromRadians(((North * EastRate) - (East * NorthRate)) / (Horizontal * Horizontal));

    /// <summary>Yearly change of the inclination.</summary>
    public Angle InclinationRate => Angle.FromRadians(((Horizontal * DownRate) - (Down * HorizontalRate)) / (Total * Total));

    /// <summary>
    /// One standard deviation of the declination: √(0.26² + (5417 nT / H)²)°, the error model that comes with the World Magnetic Model 2025. Iron nearby, power
    /// lines and magnetic storms come on top.
    /// </summary>
    public Angle DeclinationUncertainty
    {
        get
        {
            double weak = 5417.0 / Horizontal;
            return Angle.FromDegrees(Math.Sqrt((0.26 * 0.26) + (weak * weak)));
        }
    }

    /// <summary>What to warn of before this is trusted, one sentence; null when all is well.</summary>
    /// <remarks>The zones of weak horizontal field (2000 and 6000 nT) are those of the model's report (from memory).</remarks>
    public string? Warning => (YearWarning, PlaceWarning) switch
    {
        ({ } year, { } place) => $"{year}; {place}",
        var (year, place) => year ?? place,
    };

    private string? YearWarning => Year is >= MagneticCoefficients.Epoch and <= MagneticCoefficients.ValidUntil
        ? null
        : FormattableString.Invariant(
            $"the World Magnetic Model 2025 holds from 2025.0 to 2030.0, not in {Year:0.0}: take the declination from a current chart, this one may be wrong by degrees");

    private string? PlaceWarning => Horizontal switch
    {
        < 2000.0 => "so near to a magnetic pole a compass cannot be used; point by the sun, the moon or a landmark",
        < 6000.0 => "the field is weak here and a compass is poor; check it by the sun, the moon or a landmark",
        _ => null,
    };

    /// <summary>Magnetic bearing of a true azimuth: true minus declination, [0°, 360°).</summary>
    public Angle ToMagnetic(Angle trueAzimuth) => (trueAzimuth - Declination).WrappedToTurn();

    /// <summary>True azimuth of a magnetic bearing: magnetic plus declination, [0°, 360°).</summary>
    public Angle ToTrue(Angle magneticBearing) => (magneticBearing + Declination).WrappedToTurn();
}
