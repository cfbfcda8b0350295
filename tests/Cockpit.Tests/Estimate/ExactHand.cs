using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Estimate;
using Cockpit.Core.Sky;
using Cockpit.Core.Steering;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Estimate;

/// <summary>A pass in which every called move is made exactly one second later; the level is that of a plain beam with a little noise.</summary>
internal sealed class ExactHand
{
    private const double Width = 15.4;
    private static readonly DateTimeOffset Rise = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    private readonly CircularPass _track;
    private readonly Xoshiro256 _chance;
    private double? _due;

    public ExactHand(double highest = 45.0, ulong seed = 1, Mount mount = Mount.PanTilt, HandModel? hand = null)
    {
        _track = new CircularPass(Rise, Angle.FromDegrees(highest));
        _chance = new Xoshiro256(seed, 9);
        SkyTable sky = SkyTable.Of(_track, Rise, 0.0, _track.Duration.TotalSeconds, look => 4.8 - (20.0 * Math.Log10(look.RangeKm / 1441.8)));
        Estimate = new DishEstimate(new EstimateSetup { Hand = hand ?? HandModel.Practised, Mount = mount, BeamWidth = Width, Seed = seed }, sky);
        Steersman = new Steersman(Estimate, new SteeringCost());
        Azimuth = Sky(0.0).Azimuth.Degrees;
        Elevation = 5.0;
    }

    public DishEstimate Estimate { get; }

    public Steersman Steersman { get; }

    public double Azimuth { get; set; }

    public double Elevation { get; set; }

    public double Duration => _track.Duration.TotalSeconds;

    public int Calls { get; private set; }

    public int Lost { get; private set; }

    /// <summary>Where calls are not followed, a hand that does nothing.</summary>
    public bool Follows { get; init; } = true;

    /// <summary>How far the compass shows too little, degrees.</summary>
    public double CompassError { get; init; }

    /// <summary>Seconds between which no level comes.</summary>
    public (double From, double To) Silent { get; init; }

    public LookAngles Sky(double seconds) => _track.At(Rise.AddSeconds(seconds)).GetValueOrDefault();

    public double OffSatellite(double seconds) => Off(Sky(seconds).Azimuth.Degrees, Sky(seconds).Elevation.Degrees);

    public double OffBelief() => Off(Estimate.Belief.Azimuth, Estimate.Belief.Elevation);

    /// <summary>Flies from one second to another, ten steps a second.</summary>
    public void Fly(double from, double to)
    {
        for (int i = (int)(from * 10.0); i < (int)(to * 10.0); i++)
        {
            Step(i / 10.0);
        }
    }

    public void Step(double now)
    {
        LookAngles look = Sky(now);
        double off = OffSatellite(now) / Width;
        double margin = look.Elevation.Degrees > 0.0
            ? 6.0 - (15.0 * Math.Log10(look.RangeKm / 1441.8)) - Math.Min(20.0, 12.0 * off * off)
            : -60.0;
        if (now < Silent.From || now >= Silent.To)
        {
            Estimate.Level(LevelKind.SignalToNoise, Math.Max(margin, -8.0) + 5.0 + (0.5 * _chance.NextNormal()));
        }

        Lost += now >= 0.0 && margin < 0.0 ? 1 : 0;
        if (Estimate.Advance(now + 1e-6))
        {
            Steersman.Advance();
        }

        if (Follows && Steersman.Open is { } open)
        {
            Follow(open, now);
        }
    }

    private void Follow(in Call open, double now)
    {
        if (_due is { } due && now >= due && due > open.At)
        {
            (Azimuth, Elevation) = open.Move.Kind == MoveKind.Compass
                ? (open.Move.ReadAzimuth + CompassError, open.Move.ReadElevation)
                : (Azimuth + open.Move.First, Elevation + open.Move.Second);
            _due = null;
            Calls++;
            Steersman.Done();
        }
        else if (_due is null || _due < open.At)
        {
            _due = open.At + 1.0;
        }
    }

    private double Off(double azimuth, double elevation) => AimErrors.Separation(
        Angle.FromDegrees(Azimuth), Angle.FromDegrees(Elevation), Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation)).Degrees;
}
