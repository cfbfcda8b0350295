using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>Finds the turn of the pan that a pass near the zenith asks for.</summary>
internal static class OverheadTurn
{
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(0.5);

    /// <summary>The turn; null for a mount without a pan, a low pass, or one that asks for no big turn.</summary>
    /// <remarks>
    /// A dish that stands where the satellite culminates keeps it for a while on both sides; the turn lies between the directions at
    /// the two ends of that while.
    /// </remarks>
    public static BigTurn? Of(Scene scene)
    {
        if (scene.Plan is not { } plan || scene.Settings.Mount != Mount.PanTilt || plan.Pass.Tca.Look.Elevation.Degrees < GuidanceLimits.OverheadDegrees)
        {
            return null;
        }

        Angle radius = scene.Beam.RadiusFor(new Decibels(1.0));
        LookAngles top = plan.Pass.Tca.Look;
        LookAngles? before = Edge(plan.Track, top, plan.Pass.Tca.Utc, -Step, radius);
        LookAngles? after = Edge(plan.Track, top, plan.Pass.Tca.Utc, Step, radius);
        if (before is not { } from || after is not { } to)
        {
            return null;
        }

        Angle pan = (to.Azimuth - from.Azimuth).WrappedToHalfTurn();
        return Math.Abs(pan.Degrees) < GuidanceLimits.BigTurnDegrees ? null : new BigTurn(plan.Pass.Tca.Utc, pan, Stays(plan.Track, top, plan.Pass.Tca.Utc, radius));
    }

    private static LookAngles? Edge(ITrack track, LookAngles top, DateTimeOffset at, TimeSpan step, Angle radius)
    {
        LookAngles? edge = null;
        for (DateTimeOffset utc = at; track.At(utc) is { } look; utc += step)
        {
            edge = look;
            if (AimErrors.Separation(top.Azimuth, top.Elevation, look.Azimuth, look.Elevation) > radius)
            {
                break;
            }
        }

        return edge;
    }

    private static TimeSpan Stays(ITrack track, LookAngles top, DateTimeOffset at, Angle radius)
    {
        TimeSpan half = TimeSpan.Zero;
        while (track.At(at + half) is { } look && AimErrors.Separation(top.Azimuth, top.Elevation, look.Azimuth, look.Elevation) <= radius)
        {
            half += Step;
        }

        return 2.0 * half;
    }
}
