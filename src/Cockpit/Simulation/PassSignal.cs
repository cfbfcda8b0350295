using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Link;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Simulation;

/// <summary>How the dish of a simulated receiver moves.</summary>
public enum DishMotion
{
    /// <summary>From hold to hold of the plan, each at its time.</summary>
    Plan = 0,

    /// <summary>It stands where the pass culminates.</summary>
    Still = 1,
}

/// <summary>What a receiver would measure along a pass: the link budget less the pointing loss, with noise.</summary>
/// <remarks>Errors as of <see cref="LinkModel"/>; the noise is white, 0.3 dB, about what a mean over 0.1 s leaves (common practice, no source).</remarks>
/// <param name="plan">The pass and its holds.</param>
/// <param name="settings">Dish and carrier.</param>
/// <param name="motion">How the dish moves.</param>
/// <param name="seed">Seed of the noise.</param>
public sealed class PassSignal(SkyPlan plan, SessionSettings settings, DishMotion motion, ulong seed)
{
    private const double NoiseDb = 0.3;

    /// <summary>Level that stands for no signal but the noise of the receiver, dB below the wanted C/N0.</summary>
    private const double FloorDb = 15;

    private readonly Xoshiro256 _chance = new(seed);
    private readonly Beam _beam = Beam.Of(settings.DishDiameterMetres, settings.Downlink);
    private readonly LinkModel _model = new()
    {
        Carrier = settings.Downlink,
        Dish = new ReceivingDish { DiameterMetres = settings.DishDiameterMetres, PointingError = Angle.Zero },
    };

    private long _frames;

    /// <summary>The measurement at an instant, UTC; to be asked in the order of time.</summary>
    public SignalSample At(DateTimeOffset utc)
    {
        double required = _model.Service.RequiredCarrierToNoiseDensity.Value;
        double cn0 = required - FloorDb;
        if (plan.Track.At(utc) is { } look && look.Elevation > Angle.Zero)
        {
            double loss = DishAt(utc) is { } dish ? _beam.LossAt(AimErrors.Separation(dish.Azimuth, dish.Elevation, look.Azimuth, look.Elevation)).Value : 0;
            cn0 = Math.Max(cn0, _model.ExpectedCarrierToNoiseDensity(look.Elevation, look.RangeKm).Value - loss);
        }

        cn0 += NoiseDb * _chance.NextNormal();
        bool locked = cn0 > required;
        _frames += locked ? 1 : 0;
        return new SignalSample
        {
            Cn0DbHz = Math.Round(cn0, 2),
            SnrDb = Math.Round(cn0 - required, 2),
            Locked = locked,
            Frames = _frames,
        };
    }

    private Hold? DishAt(DateTimeOffset utc)
    {
        DateTimeOffset when = motion == DishMotion.Still ? plan.Pass.Tca.Utc : utc;
        return plan.Holds.LastOrDefault(hold => hold.FromUtc <= when) ?? plan.Holds.FirstOrDefault();
    }
}
