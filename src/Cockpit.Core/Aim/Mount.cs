namespace Cockpit.Core.Aim;

/// <summary>In which axes a hand moves the dish.</summary>
public enum Mount
{
    /// <summary>A head with a pan axis that stands upright and a tilt axis: amounts are degrees on its two scales.</summary>
    PanTilt = 0,

    /// <summary>A ball head or a hand that holds the dish: amounts are degrees to the right and up as seen from behind.</summary>
    Free = 1,
}
