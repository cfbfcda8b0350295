namespace Cockpit.Core.Sensing;

/// <summary>How it stands with a sensor on the dish.</summary>
public enum SensorState
{
    /// <summary>None was heard.</summary>
    None = 0,

    /// <summary>It follows the dish, but how far it is off is not known well enough to steer by it.</summary>
    Learning = 1,

    /// <summary>It is known where it points.</summary>
    Trusted = 2,

    /// <summary>No sample of late.</summary>
    Asleep = 3,

    /// <summary>What it says cannot be said of this dish: it hangs, was dropped or turned.</summary>
    Off = 4,
}
