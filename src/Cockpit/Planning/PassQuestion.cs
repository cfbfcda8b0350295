using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Planning;

/// <summary>Which passes are looked for, and where.</summary>
/// <param name="Station">Where one stands.</param>
/// <param name="From">Start of the span, UTC.</param>
/// <param name="To">Its end.</param>
/// <param name="Above">The lowest elevation that counts.</param>
/// <param name="Horizon">What hides the sky, or null.</param>
/// <param name="Dut1Seconds">UT1 - UTC.</param>
/// <param name="Refraction">Whether elevations are meant with radio refraction.</param>
internal sealed record PassQuestion(Site Station, DateTimeOffset From, DateTimeOffset To, Angle Above, HorizonMask? Horizon, double Dut1Seconds, bool Refraction)
{
    /// <summary>An elevation as it is shown.</summary>
    public Angle Shown(Angle geometric) => Refraction ? Core.Sky.Refraction.ApparentRadioElevation(geometric, HeightKm) : geometric;

    /// <summary>The limit without air for a limit as it is seen.</summary>
    internal Angle Geometric(Angle seen) =>
        Refraction && seen > Angle.Zero ? seen - Core.Sky.Refraction.RadioFromApparent(seen, HeightKm)
        : Refraction ? seen - Core.Sky.Refraction.RadioFromApparent(Angle.Zero, HeightKm)
        : seen;

    private double HeightKm => Math.Clamp(Station.HeightMetres / 1e3, 0.0, 3.0); // the range of ITU-R P.834's formula
}
