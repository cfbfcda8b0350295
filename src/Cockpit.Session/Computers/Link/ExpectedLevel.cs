using Cockpit.Core.Link;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Session.Computers.Link;

/// <summary>How the level of a well-pointed dish goes along a pass, by the link budget; made once for a session.</summary>
public sealed class ExpectedLevel
{
    private readonly LinkModel _model;

    private ExpectedLevel(LinkModel model) => _model = model;

    /// <summary>The level of a session's dish on its carrier.</summary>
    /// <param name="settings">Dish and carrier.</param>
    public static ExpectedLevel Of(SessionSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return new ExpectedLevel(new LinkModel
        {
            Carrier = settings.Downlink,
            Dish = new ReceivingDish { DiameterMetres = settings.DishDiameterMetres, PointingError = Angle.Zero },
        });
    }

    /// <summary>C/N0 of a dish that points at the satellite exactly.</summary>
    /// <param name="look">Where the satellite is.</param>
    /// <returns>
    /// dB-Hz, uncertain by about 3 dB as a whole and by about 1 dB in its course along a pass. A level or an SNR goes the same
    /// way up to a constant, which a mark gives.
    /// </returns>
    public double ShapeDb(LookAngles look) => _model.ExpectedCarrierToNoiseDensity(look.Elevation, look.RangeKm).Value;

    /// <summary>What a well-pointed dish should show.</summary>
    /// <param name="shapeDb">C/N0 by the budget, dB-Hz; null below the horizon.</param>
    /// <param name="quantity">The quantity that is measured; null before the first.</param>
    /// <param name="gainDb">Measured minus C/N0 by the marks; null before the first mark.</param>
    /// <returns>dB of that quantity; null below the horizon, and for all but C/N0 until a mark has tied the scale.</returns>
    public static double? Db(double? shapeDb, SteeringQuantity? quantity, double? gainDb) =>
        shapeDb + (gainDb ?? (quantity == SteeringQuantity.CarrierToNoiseDensity ? 0.0 : null));
}
