using System.Collections;
using Cockpit.Core.Chance;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>What a hand can do: wait, look, move the dish; with its errors. Degrees, seconds, dB.</summary>
internal sealed class HandMotor
{
    private const double SearchSizeError = 0.1;

    private readonly SimulatedReceiver _receiver;
    private readonly Queue<double> _lastSecond = new();

    private readonly WorldModel _world;

    public HandMotor(SimulatedReceiver receiver, SimulatedDish dish, HandSkill skill, ulong seed, WorldModel? world = null, double? compassError = null)
    {
        _world = world ?? WorldModel.Today;
        _receiver = receiver;
        Dish = dish;
        Skill = skill;
        Chance = new Xoshiro256(seed, 2);
        double drawn = skill.CompassDegrees * Chance.NextNormal();
        CompassError = compassError ?? drawn;
        InclinometerError = skill.InclinometerDegrees * Chance.NextNormal();
    }

    public SimulatedDish Dish { get; }

    public HandSkill Skill { get; }

    public Xoshiro256 Chance { get; }

    /// <summary>Constant in a pass, degrees.</summary>
    public double CompassError { get; }

    /// <summary>Constant in a pass, degrees.</summary>
    public double InclinometerError { get; }

    /// <summary>Moves made so far.</summary>
    public int Moves { get; private set; }

    /// <summary>What the last look showed, dB.</summary>
    public double Seen { get; private set; }

    /// <summary>Whether the last look showed a signal.</summary>
    public bool SignalSeen => _receiver.SeenAs(Seen);

    /// <summary>Takes in the reading of this step.</summary>
    public void Sense()
    {
        _lastSecond.Enqueue(_receiver.ReadingDb);
        while (_lastSecond.Count > 10)
        {
            _lastSecond.Dequeue();
        }
    }

    public double Lognormal(double median, double sigma) => median * Math.Exp(sigma * Chance.NextNormal());

    public static IEnumerator Wait(double seconds)
    {
        for (int steps = Steps(seconds); steps > 0; steps--)
        {
            yield return null;
        }
    }

    public IEnumerator Gap() => Wait(Lognormal(Skill.GapSeconds, 0.4));

    public IEnumerator React() => Wait(Lognormal(Skill.ReactionSeconds, 0.25));

    public IEnumerator ReactToCue() => Wait(Lognormal(Skill.CueReactionSeconds, 0.25));

    public IEnumerator Look()
    {
        yield return Wait(Lognormal(Skill.LookSeconds, 0.25));
        Seen = _lastSecond.Average() + (0.4 * Skill.JustSeenDb * Chance.NextNormal());
    }

    public IEnumerator LookTwice()
    {
        yield return Look();
        double first = Seen;
        yield return Look();
        Seen = (first + Seen) / 2.0;
    }

    /// <summary>Moves the beam by degrees on the sky.</summary>
    public IEnumerator MoveOnSky(double right, double up) => Move(right / SimulatedDish.PanShare(Dish.HeadElevation + (up / 2.0)), up);

    /// <summary>Turns the head to a direction, read from compass and inclinometer.</summary>
    public IEnumerator AimAt(double azimuth, double elevation)
    {
        if (_world.CompassSeconds > 0.0)
        {
            yield return Wait(_world.CompassSeconds);
        }

        if (_world.CompassReadingDegrees > 0.0)
        {
            azimuth += _world.CompassReadingDegrees * Chance.NextNormal();
            elevation += _world.CompassReadingDegrees * Chance.NextNormal();
        }

        yield return Move(Angle.FromDegrees(azimuth - Dish.HeadAzimuth).WrappedToHalfTurn().Degrees, elevation - Dish.HeadElevation, SearchSizeError);
    }

    /// <summary>Turns the head.</summary>
    /// <param name="pan">First axis, degrees.</param>
    /// <param name="tilt">Second axis, degrees.</param>
    /// <param name="sizeError">Error of the size; null for the skill's own.</param>
    public IEnumerator Move(double pan, double tilt, double? sizeError = null)
    {
        Moves++;
        (pan, tilt) = Meant(pan, tilt);
        double share = SimulatedDish.PanShare(Dish.HeadElevation + (tilt / 2.0));
        double amount = sizeError is null ? Skill.Amount : 1.0; // read off a scale, a direction has no size to be wrong in
        (double right, double up) = Made(pan * amount, tilt * amount, share, sizeError ?? Skill.SizeError);
        right = StickSlip(right);
        up = StickSlip(up);
        pan = right / share;

        double size = Math.Sqrt((right * right) + (up * up));
        double seconds = Skill.MoveSeconds + (Skill.MoveSecondsPerBit * Math.Log2(1.0 + (size / 1.5)));
        int steps = Math.Max(1, Steps(Math.Max(seconds, Math.Max(Math.Abs(pan), Math.Abs(up)) / Skill.SlewDegreesPerSec)));
        double done = 0.0;
        for (int i = 1; i <= steps; i++)
        {
            double x = (double)i / steps;
            double path = x * x * x * (10.0 + (x * (-15.0 + (6.0 * x))));
            Dish.HeadAzimuth += (pan * (path - done)) + (Skill.SwayDegrees * Chance.NextNormal());
            Dish.HeadElevation += (up * (path - done)) + (Skill.SwayDegrees * Chance.NextNormal());
            done = path;
            yield return null;
        }

        Dish.HeadAzimuth += Skill.BacklashDegrees * Chance.NextNormal() / share;
        Dish.HeadElevation += Skill.BacklashDegrees * Chance.NextNormal();
    }

    /// <summary>Now and then the larger axis goes the wrong way.</summary>
    private (double Pan, double Tilt) Meant(double pan, double tilt)
    {
        if (Chance.NextUnit() >= Skill.WrongWay)
        {
            return (pan, tilt);
        }

        return Math.Abs(pan) * SimulatedDish.PanShare(Dish.HeadElevation) > Math.Abs(tilt) ? (-pan, tilt) : (pan, -tilt);
    }

    private (double Right, double Up) Made(double pan, double tilt, double share, double sizeError)
    {
        if (Math.Abs(pan) * share >= 40.0 || Math.Abs(pan) >= 60.0)
        {
            return (pan * share * (1.0 + (sizeError * Chance.NextNormal())), tilt * (1.0 + (sizeError * Chance.NextNormal())));
        }

        double scale = 1.0 + (sizeError * Chance.NextNormal());
        (double sin, double cos) = Math.SinCos(Angle.FromDegrees(Skill.DirectionErrorDegrees * Chance.NextNormal()).Radians);
        double right = pan * share * scale;
        double up = tilt * scale;
        return ((right * cos) - (up * sin), (right * sin) + (up * cos));
    }

    private double StickSlip(double move)
    {
        double smallest = Skill.SmallestMoveDegrees;
        if (Math.Abs(move) >= smallest)
        {
            return move;
        }

        return Chance.NextUnit() < Math.Abs(move) / smallest ? Math.CopySign(smallest, move) : 0.0;
    }

    private static int Steps(double seconds) => (int)Math.Round(seconds / SimulatedReceiver.Step.TotalSeconds);
}
