namespace Cockpit.Core.Aim;

/// <summary>How a head with pan and tilt gets past the top of a high pass.</summary>
public enum OverheadWay
{
    /// <summary>The pan turns from one side to the other while the satellite culminates.</summary>
    Turn = 0,

    /// <summary>The pan stands through the culmination and turns afterwards, when that costs least.</summary>
    Wait = 1,

    /// <summary>The tilt goes on beyond 90 degrees; the pan only makes up for what is left.</summary>
    OverTheTop = 2,
}
