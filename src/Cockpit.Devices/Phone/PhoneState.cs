namespace Cockpit.Devices.Phone;

/// <summary>How it stands with the phone.</summary>
public enum PhoneState
{
    /// <summary>Nobody has paired yet.</summary>
    Waiting = 0,

    /// <summary>Connected; its sensors have not spoken yet.</summary>
    Paired = 1,

    /// <summary>Its orientation comes.</summary>
    Speaking = 2,

    /// <summary>Connected, but the page has said nothing for a second.</summary>
    Asleep = 3,

    /// <summary>The page is not in front, so its sensors are still.</summary>
    Hidden = 4,

    /// <summary>It was connected, and is not.</summary>
    Gone = 5,

    /// <summary>It has no orientation sensor, or was not allowed to use it.</summary>
    Blind = 6,

    /// <summary>The server failed.</summary>
    Failed = 7,

    /// <summary>Nobody has even asked for the page.</summary>
    Unreached = 8,
}
