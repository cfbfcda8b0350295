using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Link;
using Cockpit.Core.Sensing;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>The belief of a session: its hand, its pass, its level.</summary>
internal static class DishModel
{
    private const double UsualSnrAtThresholdDb = 5.0;

    /// <summary>The belief before anything was heard.</summary>
    public static DishEstimate Of(SessionSettings settings, SkyTable sky, Beam beam)
    {
        LinkModel link = LinkOf(settings);
        return new DishEstimate(
            new EstimateSetup
            {
                Hand = HandOf(settings),
                Mount = settings.Mount,
                BeamWidth = beam.HalfPowerWidth.Degrees,
                Speed = settings.Speed,
                SnrAtThreshold = UsualSnrAtThresholdDb,
                Cn0AtThreshold = link.Service.RequiredCarrierToNoiseDensity.Value,
            },
            sky);
    }

    /// <summary>The pass on the session's own clock.</summary>
    /// <param name="settings">What the session is about.</param>
    /// <param name="plan">The pass.</param>
    /// <param name="zero">UTC at session time zero.</param>
    public static SkyTable TableOf(SessionSettings settings, SkyPlan plan, DateTimeOffset zero)
    {
        LinkModel link = LinkOf(settings);
        SkyTable table = SkyTable.Of(
            plan.Track,
            zero,
            (plan.Pass.Aos.Utc - zero).TotalSeconds,
            (plan.Pass.Los.Utc - zero).TotalSeconds,
            look => link.ExpectedMargin(look.Elevation, look.RangeKm).Value);
        return plan.Avoids is { } avoids ? table.Avoiding(avoids, zero, avoids.Around(plan.Path)) : table;
    }

    /// <summary>Tells the belief of a measurement.</summary>
    public static void Hear(DishEstimate dish, SignalSample sample)
    {
        if (sample is { SteeringDb: { } db, Steers: { } quantity })
        {
            dish.Level(KindOf(quantity), db);
        }

        if (sample.Frames is { } frames)
        {
            dish.Frames(frames);
        }
        else if (sample.Locked is { } locked)
        {
            dish.Lines(locked ? 1.0 : 0.0);
        }
    }

    /// <summary>Tells the belief of a sample of the sensor on the dish.</summary>
    public static void Sense(DishEstimate dish, SensorSample sample, SessionSettings settings, double seconds) => dish.Sense(
        seconds,
        new SensorReading(TrueAzimuth(sample, settings)?.Degrees, sample.Elevation?.Degrees, sample.Roll?.Degrees, sample.North == SensorNorth.Arbitrary));

    /// <summary>The azimuth of a sample from true north, as far as its own north is known; null where it tells none.</summary>
    public static Angle? TrueAzimuth(SensorSample sample, SessionSettings settings) => sample switch
    {
        { Azimuth: { } read, North: SensorNorth.True or SensorNorth.Arbitrary } => read,
        { Azimuth: { } read } => (read + (settings.MagneticDeclination ?? Angle.Zero)).WrappedToTurn(),
        _ => null,
    };

    private static LevelKind KindOf(SteeringQuantity quantity) => quantity switch
    {
        SteeringQuantity.SignalToNoise => LevelKind.SignalToNoise,
        SteeringQuantity.CarrierToNoiseDensity => LevelKind.CarrierToNoiseDensity,
        _ => LevelKind.Power,
    };

    private static LinkModel LinkOf(SessionSettings settings) => new()
    {
        Carrier = settings.Downlink,
        Service = Service.Named(settings.Service) ?? new LinkModel().Service,
        Dish = new ReceivingDish { DiameterMetres = settings.DishDiameterMetres, PointingError = Angle.Zero },
    };

    /// <summary>A hand lives in real time, the belief in the session's.</summary>
    private static HandModel HandOf(SessionSettings settings)
    {
        HandModel hand = settings.CueLead > EstimateLimits.NoviceLead ? HandModel.Novice : HandModel.Practised;
        hand = settings.Hand is { } learnt ? hand with { ReactionSeconds = learnt.ReactionSeconds ?? hand.ReactionSeconds, Amount = learnt.Amount ?? hand.Amount } : hand;
        hand = settings.SetUpError is { } known ? hand with { CompassDegrees = known.Azimuth.Degrees, InclinometerDegrees = known.Elevation.Degrees } : hand;
        double speed = settings.Speed;
        return speed == 1.0 ? hand : hand with
        {
            ReactionSeconds = hand.ReactionSeconds * speed,
            MoveSeconds = hand.MoveSeconds * speed,
            MoveSecondsPerBit = hand.MoveSecondsPerBit * speed,
            SlewDegreesPerSec = hand.SlewDegreesPerSec / speed,
            ReadingSeconds = hand.ReadingSeconds * speed,
        };
    }
}
