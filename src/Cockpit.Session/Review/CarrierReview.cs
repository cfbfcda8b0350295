using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>What the time at which the carrier came says about elements and clock.</summary>
public enum CarrierVerdict
{
    /// <summary>The carrier came when it was expected, as far as that can be told.</summary>
    Fits = 0,

    /// <summary>The clock is off by as much.</summary>
    Clock = 1,

    /// <summary>The clock is right, so the elements are off.</summary>
    Elements = 2,

    /// <summary>One of both; the clock was not compared with a better one.</summary>
    Either = 3,
}

/// <summary>What the carrier says, with what it rests on.</summary>
/// <param name="ElementsAgeDays">Age of the elements at the pass, days; null without elements.</param>
/// <param name="Clock">What was known of the clock in the end; null where it was not compared.</param>
/// <param name="Verdict">Which of them is off.</param>
public sealed record CarrierReview(double? ElementsAgeDays, ClockNow? Clock, CarrierVerdict Verdict)
{
    private const double LeastSeconds = 0.5; // less costs no line: a satellite 830 km up crosses half a degree in a second
    private const double Sure = 3.0;

    /// <summary>Judges a slip.</summary>
    /// <param name="slip">The slip by the carrier.</param>
    /// <param name="ageDays">Age of the elements.</param>
    /// <param name="clock">What is known of the clock.</param>
    public static CarrierReview Of(DopplerSlip slip, double? ageDays, ClockNow? clock)
    {
        ArgumentNullException.ThrowIfNull(slip);
        return new CarrierReview(ageDays, clock, Math.Abs(slip.SlipSeconds) < Math.Max(LeastSeconds, Sure * slip.Sd) ? CarrierVerdict.Fits : Guilty(slip, clock));
    }

    // A clock that is behind makes the satellite come early by as much.
    private static CarrierVerdict Guilty(DopplerSlip slip, ClockNow? clock)
    {
        if (clock is null)
        {
            return CarrierVerdict.Either;
        }

        double doubt = Math.Sqrt((slip.Sd * slip.Sd) + (clock.Doubt.TotalSeconds * clock.Doubt.TotalSeconds));
        bool explains = Math.Abs(slip.SlipSeconds - clock.Behind.TotalSeconds) < Math.Max(LeastSeconds, Sure * doubt);
        bool right = Math.Abs(clock.Behind.TotalSeconds) < Math.Max(LeastSeconds, clock.Doubt.TotalSeconds);
        return explains && !right ? CarrierVerdict.Clock : explains ? CarrierVerdict.Either : CarrierVerdict.Elements;
    }
}
