using Cockpit.Core.Units;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>Numbers of the belief without a pointing sensor; design values, tried on a simulated hand. Spans are real time.</summary>
internal static class EstimateLimits
{
    /// <summary>A called nudge is taken as done after this, key or not.</summary>
    public static readonly TimeSpan AssumedAfter = TimeSpan.FromSeconds(2.5);

    /// <summary>A nudge is announced this long before its call, and may be confirmed from then on.</summary>
    public static readonly TimeSpan AnnouncedBefore = TimeSpan.FromSeconds(6);

    /// <summary>"Moved" within this time of a call confirms it; later it would be counted twice.</summary>
    public static readonly TimeSpan ConfirmWithin = TimeSpan.FromSeconds(6);

    /// <summary>A level at the floor for this long is no signal.</summary>
    public static readonly TimeSpan NoSignalAfter = TimeSpan.FromSeconds(2);

    /// <summary>The satellite is not lost this soon after rise: the horizon fades.</summary>
    public static readonly TimeSpan RiseGrace = TimeSpan.FromSeconds(5);

    /// <summary>A signal that stays this long is found.</summary>
    public static readonly TimeSpan FoundAfter = TimeSpan.FromSeconds(1);

    /// <summary>A refused mark pressed again within this time is taken: the operator insists.</summary>
    public static readonly TimeSpan InsistWithin = TimeSpan.FromSeconds(3);

    /// <summary>How long a level must be short before the pointing is doubted.</summary>
    public static readonly TimeSpan ShortFor = TimeSpan.FromSeconds(1);

    /// <summary>No doubt this soon after a mark or a doubt.</summary>
    public static readonly TimeSpan DoubtEvery = TimeSpan.FromSeconds(12);

    /// <summary>How long a notice stays.</summary>
    public static readonly TimeSpan NoticeFor = TimeSpan.FromSeconds(8);

    /// <summary>No regaining sooner: the level is a mean of two seconds.</summary>
    public static readonly TimeSpan RegainedAfter = TimeSpan.FromSeconds(2);

    /// <summary>A mark this far under the best is refused, dB.</summary>
    public const double RefuseDb = 3.0;

    /// <summary>A level this far under what the believed pointing explains is short, dB.</summary>
    public const double ShortDb = 2.5;

    /// <summary>A level this little under the expectation says that the dish points at the satellite again, dB.</summary>
    public const double RegainedDb = 0.8;

    /// <summary>Spread of a dish whose level is regained, beamwidths: 0.8 dB is 0.26.</summary>
    public const double RegainedSpread = 0.3;

    /// <summary>How fast the scale follows a level above the expectation, share per second.</summary>
    public const double GainUpPerSec = 0.03;

    /// <summary>How fast the scale follows a level below what the pointing explains, share per second: the course of the budget is good to 1 or 2 dB only.</summary>
    public const double GainDownPerSec = 0.004;

    /// <summary>How far an accepted mark under the expectation pulls the scale down, share.</summary>
    public const double GainDownPerMark = 0.5;

    /// <summary>Spread above which the dish is known too badly, beamwidths.</summary>
    public const double WideSpread = 0.4;

    /// <summary>Spread of a mark by ear, beamwidths: the top of the beam is flat.</summary>
    public const double MarkSpread = 0.2;

    /// <summary>Spread when the level says that the belief is wrong, or when a search has just found, beamwidths.</summary>
    public const double DoubtSpread = 0.5;

    /// <summary>Error of a nudge as a share of its size.</summary>
    public const double NudgeShare = 0.15;

    /// <summary>Error of a nudge whatever its size: stick-slip, backlash.</summary>
    public static readonly Angle LeastNudgeError = Angle.FromDegrees(0.7);

    /// <summary>Spread of a dish set up by compass and inclinometer.</summary>
    public static readonly Angle PlanSpread = Angle.FromDegrees(7);

    /// <summary>Slow drift by wind and sag in one second; it adds up as a random walk.</summary>
    public static readonly Angle DriftInOneSecond = Angle.FromDegrees(0.1);
}
