using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Session.Rehearsal;

/// <summary>How a dish is steered in a closed-loop run.</summary>
public enum Steering
{
    /// <summary>Always exactly at the satellite: what the path alone loses.</summary>
    Perfect = 0,

    /// <summary>By the hold plan without any error: what nudging alone loses.</summary>
    HoldPlan = 1,

    /// <summary>By a hand that sees only the level and a paper table.</summary>
    Unguided = 2,

    /// <summary>By a hand that follows this program.</summary>
    Guided = 3,
}

/// <summary>What one simulated pass came to.</summary>
/// <param name="LostShare">Picture lines lost, 0..1.</param>
/// <param name="RmsDegrees">Root mean square of the angle between dish and satellite.</param>
/// <param name="Moves">Moves of the hand.</param>
/// <param name="Marks">Times "peaked" was pressed.</param>
public readonly record struct PassScore(double LostShare, double RmsDegrees, int Moves, int Marks);

/// <summary>Flies simulated passes from rise to set with a simulated hand, in virtual time.</summary>
/// <remarks>"In simulation": the numbers compare ways of steering; they do not promise a result with a person.</remarks>
public static class ClosedLoop
{
    private static readonly DateTimeOffset Rise = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    /// <summary>The receiver runs before the rise, so its floor is seen with the satellite below the horizon.</summary>
    private static readonly TimeSpan BeforeRise = TimeSpan.FromSeconds(150);

    /// <summary>Highest elevations of the passes of the comparison, degrees.</summary>
    public static IReadOnlyList<double> Elevations { get; } = [15, 30, 45, 60, 75, 88];

    /// <summary>Flies one pass.</summary>
    /// <param name="steering">How the dish is steered.</param>
    /// <param name="skill">Whose hand it is.</param>
    /// <param name="highestDegrees">Highest elevation of the pass, degrees, above 5, to 90.</param>
    /// <param name="seed">Seed; the same seed is the same sky, wind and noise for every steering.</param>
    public static PassScore Fly(Steering steering, HandSkill skill, double highestDegrees, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(skill);
        CircularPass track = new(Rise, Angle.FromDegrees(highestDegrees));
        SessionSettings settings = Settings(skill, seed);
        ulong world = (seed * 100) + (ulong)Math.Round(highestDegrees);
        SimulatedReceiver receiver = new(track, Beam.Of(settings.DishDiameterMetres, settings.Downlink), settings.DishDiameterMetres, world);
        SimulatedDish dish = new(world);
        Flight flight = new(track, settings, receiver, dish);
        return steering switch
        {
            Steering.Perfect => flight.ByRule(utc => track.At(utc) is { } look ? (look.Azimuth, look.Elevation) : default),
            Steering.HoldPlan => flight.ByRule(utc => flight.PlanAt(utc)),
            Steering.Unguided => flight.ByHand(new HandMotor(receiver, dish, skill, world), guided: false),
            _ => flight.ByHand(new HandMotor(receiver, dish, skill, world), guided: true),
        };
    }

    private static SessionSettings Settings(HandSkill skill, ulong seed) => new()
    {
        ProgramVersion = "",
        Kind = SessionKind.Demo,
        StationName = "",
        Station = new Site(Angle.Zero, Angle.Zero, 0.0),
        SatelliteName = "",
        Downlink = new Frequency(Frequency.SpeedOfLightMetresPerSecond / 0.176),
        CueLead = TimeSpan.FromSeconds(skill.CueReactionSeconds >= HandSkill.Novice.CueReactionSeconds ? 1.6 : 1.0),
        Seed = seed,
        Feeds = [FeedSettings.Signal],
    };

    private sealed class Flight(CircularPass track, SessionSettings settings, SimulatedReceiver receiver, SimulatedDish dish)
    {
        private readonly SkyPlan _sky = SkyPlan.Of(track, Rise, track.Pass, settings);
        private readonly int _steps = (int)Math.Floor(track.Duration / SimulatedReceiver.Step);
        private readonly int _before = (int)(BeforeRise / SimulatedReceiver.Step);
        private int _lost;
        private int _marks;
        private double _squares;

        public PassScore ByRule(Func<DateTimeOffset, (Angle Azimuth, Angle Elevation)> pointing)
        {
            for (int i = -_before; i < _steps; i++)
            {
                (Angle azimuth, Angle elevation) = pointing(At(i));
                Count(receiver.Measure(At(i), azimuth, elevation), i);
            }

            return Score(_sky.Holds.Length - 1);
        }

        public (Angle Azimuth, Angle Elevation) PlanAt(DateTimeOffset utc)
        {
            Hold hold = _sky.Holds.FirstOrDefault(h => utc < h.ToUtc) ?? _sky.Holds[^1];
            return (hold.Azimuth, hold.Elevation);
        }

        public PassScore ByHand(HandMotor motor, bool guided)
        {
            LookAngles rise = track.Pass.Aos.Look;
            dish.HeadAzimuth = rise.Azimuth.Degrees + motor.CompassError;
            dish.HeadElevation = rise.Elevation.Degrees + motor.InclinometerError;
            DateTimeOffset now = Rise;
            List<OperatorKey> keys = [];
            GuidanceRun run = new(_sky, settings, At(-_before));
            Script script = new(guided
                ? new GuidedHand(motor, () => run.Snapshot, keys.Add).Run()
                : new UnguidedHand(motor, () => LookAt(now), () => LookAt(now.AddSeconds(5))).Run());
            for (int i = -_before; i < _steps; i++)
            {
                now = At(i);
                if (i >= 0)
                {
                    dish.Step();
                }

                SignalSample sample = Count(receiver.Measure(now, dish.Azimuth, dish.Elevation), i);
                motor.Sense();
                if (guided)
                {
                    run.Fold(now, Sources.Signal, new SignalMeasured(Sources.Signal, sample));
                }

                if (guided || i >= 0)
                {
                    script.Step();
                }

                foreach (OperatorKey key in keys)
                {
                    _marks += key == OperatorKey.Peaked ? 1 : 0;
                    run.Fold(now, Sources.Keys, new OperatorPressed(key));
                }

                keys.Clear();
            }

            return Score(motor.Moves);
        }

        private LookAngles LookAt(DateTimeOffset utc) => track.At(utc).GetValueOrDefault();

        private static DateTimeOffset At(int step) => Rise + (SimulatedReceiver.Step * step);

        private SignalSample Count(SignalSample sample, int step)
        {
            double off = receiver.OffAxis?.Degrees ?? 0.0;
            _squares += step >= 0 ? off * off : 0.0;
            _lost += step >= 0 && receiver.LineLost ? 1 : 0;
            return sample;
        }

        private PassScore Score(int moves) => new((double)_lost / _steps, Math.Sqrt(_squares / _steps), moves, _marks);
    }
}
