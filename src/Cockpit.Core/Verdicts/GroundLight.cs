using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>How light it is at a place on the ground.</summary>
public enum GroundLight
{
    /// <summary>The sun is further than 6° below the horizon: civil twilight is over.</summary>
    Dark = 0,

    /// <summary>The sun is down, by less than 6°.</summary>
    Twilight = 1,

    /// <summary>The sun is up.</summary>
    Day = 2,
}

/// <summary>Says it by the elevation of the sun.</summary>
/// <remarks>Rise and set at -0.833° (refraction and the radius of the disc), civil twilight to -6°: US Naval Observatory, "Rise, Set, and Twilight Definitions" (from memory).</remarks>
public static class GroundLights
{
    private static readonly Angle Rise = Angle.FromDegrees(-0.833);
    private static readonly Angle CivilTwilight = Angle.FromDegrees(-6);

    /// <summary>The light.</summary>
    /// <param name="sun">Elevation of the sun there, without refraction.</param>
    public static GroundLight Of(Angle sun) => sun >= Rise ? GroundLight.Day : sun >= CivilTwilight ? GroundLight.Twilight : GroundLight.Dark;

    /// <summary>In one word.</summary>
    /// <param name="light">The light.</param>
    public static string Word(GroundLight light) => light switch
    {
        GroundLight.Day => "day",
        GroundLight.Twilight => "twilight",
        _ => "dark",
    };
}
