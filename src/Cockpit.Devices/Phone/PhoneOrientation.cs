using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Devices.Phone;

/// <summary>Turns what the browser tells of the phone into where the dish points. One for each pairing; not safe from several threads.</summary>
/// <remarks>
/// A browser may tell two kinds: one counted from a compass, one from an arbitrary zero that no steel disturbs. Where both come the compass sets the zero
/// of the second once, and from then on only the second is heard: its errors are a constant, which is learnt, and a slow drift.
/// </remarks>
/// <param name="options">How the phone lies on the dish.</param>
/// <param name="time">What ages go by.</param>
internal sealed class PhoneOrientation(SensorOptions options, TimeProvider time)
{
    /// <summary>A kind that has not come for so long does not come any more.</summary>
    private static readonly TimeSpan StillComes = TimeSpan.FromSeconds(1.0);

    /// <summary>Two events are of the same moment.</summary>
    private static readonly TimeSpan SameMoment = TimeSpan.FromMilliseconds(150);

    /// <summary>What is older when it is first told says nothing of now.</summary>
    public static readonly TimeSpan Oldest = TimeSpan.FromMilliseconds(500);

    /// <summary>Flatter than this the heading of the top edge means what it says.</summary>
    private const double FlatBeta = 50.0;
    private const double FlatGamma = 40.0;

    private readonly record struct Angles(double? Alpha, double? Beta, double? Gamma);

    private readonly AnglesReader _compass = new(options);
    private readonly AnglesReader _gyro = new(options);
    private CommonZero _zero = new();
    private (Angles Compass, Angles Gyro) _last;
    private (SensorSample Sample, long At)? _lastGyro;
    private long? _compassAt;
    private long? _gyroSince;
    private double? _headingOffset;

    /// <summary>Takes one message.</summary>
    /// <param name="said">The message.</param>
    /// <param name="sample">Where the dish points.</param>
    /// <param name="age">How old that is.</param>
    /// <returns>What is wrong, a few words; empty where it is only not to be used; null where the sample is good.</returns>
    public string? Take(PhoneMessage.Turned said, out SensorSample sample, out TimeSpan age)
    {
        // A phone that lies still sends no events: the page says the last values again, and they hold now.
        Angles angles = new(said.Alpha, said.Beta, said.Gamma);
        bool again = angles == (said.Absolute ? _last.Compass : _last.Gyro);
        _last = said.Absolute ? (angles, _last.Gyro) : (_last.Compass, angles);
        age = again ? TimeSpan.Zero : said.Age;
        sample = default;
        return said.Shaking || age > Oldest || IsNothing(angles) ? "" : said.Absolute ? TakeCompass(said, out sample) : TakeGyro(said, out sample);
    }

    /// <summary>The page was away: a zero that is arbitrary may be another one now.</summary>
    public void Forget()
    {
        _zero = new CommonZero();
        _headingOffset = null;
        _last = default;
        _lastGyro = null;
    }

    private string? TakeCompass(PhoneMessage.Turned said, out SensorSample sample)
    {
        _compassAt = time.GetTimestamp();
        if (_compass.Read(said.Alpha, said.Beta, said.Gamma, SensorNorth.Magnetic, out sample) is { } problem)
        {
            return problem;
        }

        if (_lastGyro is { } gyro && time.GetElapsedTime(gyro.At) <= SameMoment)
        {
            _zero.Compare(sample, gyro.Sample);
        }

        return _zero.Offset is not null && IsComing(_lastGyro?.At) ? "" : null;
    }

    private string? TakeGyro(PhoneMessage.Turned said, out SensorSample sample)
    {
        bool goesOn = IsComing(_lastGyro?.At);
        if (_gyro.Read(Alpha(said), said.Beta, said.Gamma, _headingOffset is null ? SensorNorth.Arbitrary : SensorNorth.Magnetic, out sample) is { } problem)
        {
            return problem;
        }

        _gyroSince = goesOn ? _gyroSince : time.GetTimestamp();
        _lastGyro = (sample, time.GetTimestamp());
        if (sample.North != SensorNorth.Arbitrary)
        {
            return null;
        }

        if (_zero.Offset is { } offset)
        {
            sample = sample with { Azimuth = (sample.Azimuth + offset)?.WrappedToTurn(), North = SensorNorth.Magnetic };
            return null;
        }

        // A compass that is there speaks until the zero is set; whether one is there shows within a second.
        return IsComing(_compassAt) || IsComing(_gyroSince) ? "" : null;
    }

    private bool IsComing(long? at) => at is { } moment && time.GetElapsedTime(moment) <= StillComes;

    /// <summary>Exactly upright a browser leaves beta out; where it then tells two zeros, it has lost the azimuth too.</summary>
    private static bool IsNothing(Angles angles) => angles is { Alpha: null, Beta: null, Gamma: null } or { Alpha: 0.0, Beta: null, Gamma: 0.0 };

    /// <summary>Where the browser tells a heading apart, alpha is brought to it once, while the phone is flat: upright the heading means something else.</summary>
    private double? Alpha(PhoneMessage.Turned said)
    {
        if (said is { Heading: { } heading, Alpha: { } alpha, Beta: > -FlatBeta and < FlatBeta, Gamma: > -FlatGamma and < FlatGamma } && _headingOffset is null)
        {
            _headingOffset = Attitude.AlphaOfHeading(Angle.FromDegrees(heading)).Degrees - alpha;
        }

        return said.Alpha is { } own && _headingOffset is { } offset ? Angle.FromDegrees(own + offset).WrappedToTurn().Degrees : said.Alpha;
    }

    /// <summary>How far the arbitrary zero is from the compass's, a mean over some moments.</summary>
    private sealed class CommonZero
    {
        private const int Enough = 10;

        /// <summary>Near the zenith an azimuth means nothing.</summary>
        private static readonly Angle Steep = Angle.FromDegrees(75.0);

        private int _count;
        private double _sin;
        private double _cos;

        /// <summary>What to add to the azimuth from the arbitrary zero; null while it is not known. It never changes.</summary>
        public Angle? Offset { get; private set; }

        public void Compare(SensorSample compass, SensorSample gyro)
        {
            if (Offset is null && compass is { Azimuth: { } north, Elevation: { } up } && gyro.Azimuth is { } own && up.Abs() < Steep)
            {
                Angle apart = north - own;
                _count++;
                _sin += apart.Sin();
                _cos += apart.Cos();
                Offset = _count >= Enough ? Angle.FromRadians(Math.Atan2(_sin, _cos)) : null;
            }
        }
    }
}
