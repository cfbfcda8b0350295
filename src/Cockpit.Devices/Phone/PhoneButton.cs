namespace Cockpit.Devices.Phone;

/// <summary>What a person can say with a button of the page.</summary>
public enum PhoneButton
{
    /// <summary>The signal is at its best.</summary>
    Peaked = 0,

    /// <summary>The nudge that was called is done.</summary>
    Moved = 1,

    /// <summary>It was not done.</summary>
    NotMoved = 2,

    /// <summary>The dish points at what was asked for.</summary>
    Here = 3,
}
