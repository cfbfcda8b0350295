using Cockpit.Core.Aim;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Desk;

/// <summary>The head of a rehearsal that is turned by keys.</summary>
internal static class HeadRules
{
    /// <summary>Where it stands when the session opens: set up at the first hold; null where no keys turn it.</summary>
    public static HeadNow? Opened(Scene scene)
    {
        if (!scene.Settings.KeysSteer || scene.Sky is not { } sky)
        {
            return null;
        }

        if (scene.InPass && sky.Now is { } look)
        {
            return new HeadNow(look.Azimuth, look.Elevation);
        }

        SkyPlace stands = sky.Holds is [var first, ..] ? first.Flown() : new SkyPlace(sky.Pass.Aos.Look.Azimuth, sky.Pass.Aos.Look.Elevation);
        return new HeadNow(stands.Azimuth, stands.Elevation);
    }

    /// <summary>A turn; null where nothing can be turned.</summary>
    public static HeadNow? Turned(HeadNow? head, HeadTurned turn) => head?.Turned(turn.Pan, turn.Tilt);
}
