using Cockpit.Core.Link;
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
            Service = Service.Named(settings.Service) ?? new LinkModel().Service,
            Dish = new ReceivingDish { DiameterMetres = settings.DishDiameterMetres, PointingError = Angle.Zero },
        });
    }

    /// <summary>C/N0 of a dish that points at the satellite exactly.</summary>
    /// <param name="look">Where the satellite is.</param>
    /// <returns>
    /// dB-Hz, uncertain by about 3 dB as a whole and by about 1 dB in its course along a pass. A level or an SNR goes the same
    /// way up to a constant.
    /// </returns>
    public double ShapeDb(LookAngles look) => _model.ExpectedCarrierToNoiseDensity(look.Elevation, look.RangeKm).Value;

    /// <summary>How far the level of a well-pointed dish is over what a clean picture needs.</summary>
    /// <param name="look">Where the satellite is.</param>
    /// <returns>dB, uncertain by about 3 dB; negative = no picture.</returns>
    public double MarginDb(LookAngles look) => _model.ExpectedMargin(look.Elevation, look.RangeKm).Value;
}
