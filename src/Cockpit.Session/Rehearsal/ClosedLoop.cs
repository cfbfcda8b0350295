using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>Flies simulated passes from rise to set with a simulated hand, in virtual time.</summary>
/// <remarks>"In simulation": the numbers compare ways of steering; they do not promise a result with a person.</remarks>
public static class ClosedLoop
{
    internal static readonly DateTimeOffset Rise = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    private const double WavelengthMetres = 0.176;
    private const double DisturbedFrom = 0.4;

    /// <summary>Highest elevations of the passes of the comparison, degrees.</summary>
    public static IReadOnlyList<double> Elevations { get; } = [15, 30, 45, 60, 75, 88];

    /// <summary>Flies one pass.</summary>
    public static PassScore Fly(Trial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        CircularPass plan = new(Rise, Angle.FromDegrees(trial.HighestDegrees));
        ITrack truth = trial.World.ElementsLateSeconds == 0.0 ? plan : new LateTrack(plan, trial.World.ElementsLateSeconds);
        HandSkill skill = trial.Steering == Steering.ExactHand ? trial.Skill.WithoutErrors() : trial.Skill;
        SessionSettings settings = Settings(trial);
        ulong seed = SeedOf(trial);
        Beam beam = Beam.Of(settings.DishDiameterMetres, settings.Downlink);
        SimulatedReceiver receiver = new(truth, beam, settings.DishDiameterMetres, seed, Obstructions(trial.World, plan), trial.World);
        SimulatedDish dish = new(seed, trial.World);
        TrialFlight flight = new(trial, plan, truth, settings, receiver, dish);
        return trial.Steering switch
        {
            Steering.Perfect => flight.ByRule(utc => truth.At(utc) is { } look ? (look.Azimuth, look.Elevation) : default),
            Steering.HoldPlan => flight.ByRule(flight.PlanAt),
            _ => flight.ByHand(new HandMotor(receiver, dish, skill, seed, trial.World)),
        };
    }

    /// <summary>The seed of everything that happens in a pass.</summary>
    internal static ulong SeedOf(Trial trial) => (trial.Seed * 100) + (ulong)Math.Round(trial.HighestDegrees);

    /// <summary>The lead that someone with such a hand would choose: novice or practised.</summary>
    internal static TimeSpan LeadOf(HandSkill skill) => TimeSpan.FromSeconds(skill.CueReactionSeconds >= HandSkill.Novice.CueReactionSeconds ? 1.6 : 1.0);

    private static SessionSettings Settings(Trial trial) => new()
    {
        ProgramVersion = "",
        Kind = SessionKind.Demo,
        StationName = "",
        Station = new Site(Angle.Zero, Angle.Zero, 0.0),
        SatelliteName = "",
        DishDiameterMetres = trial.DishMetres,
        Downlink = new Frequency(Frequency.SpeedOfLightMetresPerSecond / WavelengthMetres),
        CueLead = LeadOf(trial.Skill),
        SetUpError = trial.Skill.ToldSetUp ? new SetUpError(Angle.FromDegrees(trial.Skill.CompassDegrees), Angle.FromDegrees(trial.Skill.InclinometerDegrees)) : null,
        Hand = trial.Learnt,
        Seed = trial.Seed,
        Feeds = [FeedSettings.Signal],
    };

    /// <summary>The part of a pass in which obstruction and drop-out fall.</summary>
    internal static DateTimeOffset Disturbed(CircularPass plan) => Rise + (plan.Duration * DisturbedFrom);

    private static ImmutableArray<Obstruction> Obstructions(WorldModel world, CircularPass plan) => world.ObstructionSeconds > 0.0
        ? [new Obstruction(Disturbed(plan), TimeSpan.FromSeconds(world.ObstructionSeconds), new Decibels(world.ObstructionDb))]
        : [];

    /// <summary>A satellite that comes later than its elements say.</summary>
    private sealed class LateTrack(ITrack track, double seconds) : ITrack
    {
        public LookAngles? At(DateTimeOffset utc) => track.At(utc.AddSeconds(-seconds));
    }
}
