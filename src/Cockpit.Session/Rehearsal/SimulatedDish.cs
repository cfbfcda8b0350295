using Cockpit.Core.Chance;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>A light dish on a loose head: it holds a direction, sways in the wind and sags. Degrees throughout.</summary>
public sealed class SimulatedDish
{
    private const double LowestDegrees = -3.0;
    private const double HighestDegrees = 92.0;
    private const double WindSeconds = 5.0;

    private readonly Xoshiro256 _chance;
    private readonly WorldModel _world;
    private double _windRight;
    private double _windUp;
    private double _elevation;

    /// <summary>Sets up a dish.</summary>
    /// <param name="seed">Seed of the wind.</param>
    /// <param name="world">Wind and sag; <see cref="WorldModel.Today"/> when not given.</param>
    public SimulatedDish(ulong seed, WorldModel? world = null)
    {
        _world = world ?? WorldModel.Today;
        _chance = new Xoshiro256(seed, 4);
        _windRight = _chance.NextNormal();
        _windUp = _chance.NextNormal();
    }

    /// <summary>Azimuth of the head, degrees, any turn.</summary>
    public double HeadAzimuth { get; set; }

    /// <summary>Elevation of the head, degrees, -3 to 92 (a little over the top).</summary>
    public double HeadElevation
    {
        get => _elevation;
        set => _elevation = Math.Clamp(value, LowestDegrees, HighestDegrees);
    }

    /// <summary>How much a turn of the head moves the beam sideways at an elevation; never quite nothing.</summary>
    public static double PanShare(double elevationDegrees) => Math.Max(Angle.FromDegrees(elevationDegrees).Cos(), 0.03);

    /// <summary>True azimuth of the beam.</summary>
    public Angle Azimuth => Angle.FromDegrees(HeadAzimuth + (_world.WindDegrees * _windRight / PanShare(HeadElevation))).WrappedToTurn();

    /// <summary>True elevation of the beam, up to about 93°.</summary>
    public Angle Elevation => Angle.FromDegrees(HeadElevation + (_world.WindDegrees * _windUp));

    /// <summary>Wind and sag of one step of 0.1 s.</summary>
    public void Step()
    {
        double step = SimulatedReceiver.Step.TotalSeconds;
        double keep = Math.Exp(-step / WindSeconds);
        double fresh = Math.Sqrt(1.0 - (keep * keep));
        _windRight = (keep * _windRight) + (fresh * _chance.NextNormal());
        _windUp = (keep * _windUp) + (fresh * _chance.NextNormal());
        HeadElevation -= _world.SagDegreesPerSec * step;
    }
}
