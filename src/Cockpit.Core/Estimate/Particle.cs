namespace Cockpit.Core.Estimate;

/// <summary>How a pending move was called.</summary>
internal enum Pending
{
    None = 0,
    Nudge = 1,
    Compass = 2,
}

/// <summary>One hypothesis: where the head points, what the instruments err, how the level is scaled. Degrees, dB, seconds.</summary>
/// <remarks>Gain G, steepness S and fading f, and the errors of the instruments, are not sampled but carried as Gaussians of their own (Rao-Blackwell).</remarks>
internal struct Particle
{
    public double Azimuth;
    public double Elevation;
    public Vector Direction;
    public double BeamSquare;      // 12 / width^2, dB per square degree
    public double CompassError;    // mean of the compass's constant error
    public double TiltError;
    public double CompassVariance;
    public double TiltVariance;
    public double Blocked;         // dB that something in the way takes
    public bool Lapsed;            // did not follow the last call
    public bool ReadsAtOnce;       // needs no time to read the compass
    public bool ReadsCompass;      // sets the dish by compass when that is asked for; else only follows the arrows
    public bool Moved;             // followed it already

    public bool Follows;           // a sensor on the dish
    public double Right;           // by how much that sits askew, to the right
    public double SensorAzimuth;   // its errors when it was last heard
    public double SensorElevation;

    public Pending Pending;
    public double PendingPan;
    public double PendingTilt;
    public double PendingAt;
    public double MovingUntil;
    public double BeforeAzimuth;
    public double BeforeElevation;

    public double G;
    public double S;
    public double F;
    public double GG;
    public double GS;
    public double GF;
    public double SS;
    public double SF;
    public double FF;
    public double Weight;

    public void Point() => Direction = Vector.Of(Azimuth, Elevation);
}
