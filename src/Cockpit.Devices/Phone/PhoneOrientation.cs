using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Devices.Phone;

/// <summary>Turns what the browser tells of the phone into where the dish points. One for each pairing; not safe from several threads.</summary>
/// <remarks>
/// A browser may tell two kinds: one counted from a compass, one from an arbitrary zero that no steel disturbs. The second gives the shape where both come.
/// </remarks>
/// <param name="options">How the phone lies on the dish.</param>
/// <param name="time">What ages go by.</param>
internal sealed class PhoneOrientation(SensorOptions options, TimeProvider time)
{
    /// <summary>The relative kind is preferred while it is not older.</summary>
    private static readonly TimeSpan StillComes = TimeSpan.FromSeconds(1.0);

    /// <summary>What is older when it is first told says nothing of now.</summary>
    public static readonly TimeSpan Oldest = TimeSpan.FromMilliseconds(500);

    /// <summary>Flatter than this the heading of the top edge means what it says.</summary>
    private const double FlatBeta = 50.0;
    private const double FlatGamma = 40.0;

    private readonly record struct Angles(bool Absolute, double? Alpha, double? Beta, double? Gamma);

    private readonly AnglesReader _reader = new(options);
    private Angles _last;
    private long? _relativeAt;
    private double? _headingOffset;

    /// <summary>Takes one message.</summary>
    /// <param name="said">The message.</param>
    /// <param name="sample">Where the dish points.</param>
    /// <param name="age">How old that is.</param>
    /// <returns>What is wrong, a few words; empty where it is only not to be used; null where the sample is good.</returns>
    public string? Take(PhoneMessage.Turned said, out SensorSample sample, out TimeSpan age)
    {
        sample = default;
        age = said.Age;
        if (!said.Absolute)
        {
            _relativeAt = time.GetTimestamp();
        }
        else if (_relativeAt is { } at && time.GetElapsedTime(at) < StillComes)
        {
            return "";
        }

        // A phone that lies still sends no events: the page says the last values again, and they hold now.
        Angles angles = new(said.Absolute, said.Alpha, said.Beta, said.Gamma);
        bool again = angles == _last;
        _last = angles;
        age = again ? TimeSpan.Zero : said.Age;
        if (said.Shaking || age > Oldest || IsNothing(angles))
        {
            return "";
        }

        return _reader.Read(Alpha(said), said.Beta, said.Gamma, NorthOf(said), out sample);
    }

    /// <summary>Exactly upright a browser leaves beta out; where it then tells two zeros, it has lost the azimuth too.</summary>
    private static bool IsNothing(Angles angles) => angles is { Alpha: null, Beta: null, Gamma: null } or { Alpha: 0.0, Beta: null, Gamma: 0.0 };

    /// <summary>The page was away: a zero that is arbitrary may be another one now.</summary>
    public void Forget()
    {
        _headingOffset = null;
        _last = default;
    }

    /// <summary>Where the browser tells a heading apart, alpha is brought to it once, while the phone is flat: upright the heading means something else.</summary>
    private double? Alpha(PhoneMessage.Turned said)
    {
        if (said is { Heading: { } heading, Alpha: { } alpha, Beta: > -FlatBeta and < FlatBeta, Gamma: > -FlatGamma and < FlatGamma } && _headingOffset is null)
        {
            _headingOffset = Attitude.AlphaOfHeading(Angle.FromDegrees(heading)).Degrees - alpha;
        }

        return said is { Absolute: false, Alpha: { } own } && _headingOffset is { } offset ? Angle.FromDegrees(own + offset).WrappedToTurn().Degrees : said.Alpha;
    }

    private SensorNorth NorthOf(PhoneMessage.Turned said) => said.Absolute || _headingOffset is not null ? SensorNorth.Magnetic : SensorNorth.Arbitrary;
}
