namespace Cockpit.Devices.Phone;

/// <summary>A connection to a page over which the guidance goes.</summary>
internal interface IPhoneLink
{
    /// <summary>Ends it; returns at once.</summary>
    /// <param name="code">Why, as the page understands it: a code of <see cref="PhoneClosing"/>.</param>
    void End(int code);
}

/// <summary>Why a connection ends, as the page is told (RFC 6455, 7.4).</summary>
internal static class PhoneClosing
{
    /// <summary>The program ends.</summary>
    public const int Going = 1001;

    /// <summary>More messages than any page has to say.</summary>
    public const int Flood = 1008;

    /// <summary>A longer message than any page has to say.</summary>
    public const int TooBig = 1009;

    /// <summary>Another phone took over: do not come back.</summary>
    public const int Replaced = 4001;

    /// <summary>The key is none, or no more: scan again.</summary>
    public const int NotKnown = 4003;
}
