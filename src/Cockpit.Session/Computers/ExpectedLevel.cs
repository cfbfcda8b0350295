using Cockpit.Core.Link;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Session.Computers;

/// <summary>How the level of a well-pointed dish goes along a pass, by the link budget.</summary>
public static class ExpectedLevel
{
    /// <summary>C/N0 of a dish that points at the satellite exactly.</summary>
    /// <param name="settings">Dish and carrier.</param>
    /// <param name="look">Where the satellite is.</param>
    /// <returns>
    /// dB-Hz, uncertain by about 3 dB as a whole and by about 1 dB in its course along a pass. A level or an SNR goes the same
    /// way up to a constant, which a mark gives.
    /// </returns>
    public static double ShapeDb(SessionSettings settings, LookAngles look)
    {
        ArgumentNullException.ThrowIfNull(settings);
        LinkModel model = new()
        {
            Carrier = settings.Downlink,
            Dish = new ReceivingDish { DiameterMetres = settings.DishDiameterMetres, PointingError = Angle.Zero },
        };
        return model.ExpectedCarrierToNoiseDensity(look.Elevation, look.RangeKm).Value;
    }

    /// <summary>What a well-pointed dish should show.</summary>
    /// <param name="settings">Dish and carrier.</param>
    /// <param name="look">Where the satellite is; null when unknown.</param>
    /// <param name="quantity">The quantity that is measured; null before the first.</param>
    /// <param name="gainDb">Measured minus C/N0 by the marks; null before the first mark.</param>
    /// <returns>dB of that quantity; null below the horizon, and for all but C/N0 until a mark has tied the scale.</returns>
    public static double? Db(SessionSettings settings, LookAngles? look, string? quantity, double? gainDb)
    {
        double? gain = gainDb ?? (string.Equals(quantity, Quantities.CarrierToNoiseDensity, StringComparison.Ordinal) ? 0.0 : null);
        return look is { } seen && seen.Elevation > Angle.Zero ? ShapeDb(settings, seen) + gain : null;
    }
}

/// <summary>Names of the quantities that steer.</summary>
public static class Quantities
{
    /// <summary>Signal to noise ratio, dB.</summary>
    public const string SignalToNoise = "SNR";

    /// <summary>Carrier to noise density, dB-Hz.</summary>
    public const string CarrierToNoiseDensity = "C/N0";

    /// <summary>Power relative to something constant, dB.</summary>
    public const string Level = "level";
}
