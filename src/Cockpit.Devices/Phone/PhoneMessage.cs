namespace Cockpit.Devices.Phone;

/// <summary>What the page says.</summary>
public abstract record PhoneMessage
{
    /// <summary>The first word of a connection.</summary>
    /// <param name="Key">The key of an earlier pairing; empty for the first.</param>
    public sealed record Hello(string Key) : PhoneMessage;

    /// <summary>How the phone is turned, as an event of the browser told it.</summary>
    /// <param name="Number">Counts up.</param>
    /// <param name="Absolute">Counted from a compass, not from an arbitrary zero.</param>
    /// <param name="Alpha">About z, against the compass, degrees.</param>
    /// <param name="Beta">About x, degrees.</param>
    /// <param name="Gamma">About y, degrees.</param>
    /// <param name="Age">Since the event.</param>
    /// <param name="Shaking">While the phone vibrates, and a little after.</param>
    /// <param name="Heading">Compass heading of the top edge, degrees, where the browser tells it apart.</param>
    public sealed record Turned(long Number, bool Absolute, double? Alpha, double? Beta, double? Gamma, TimeSpan Age, bool Shaking, double? Heading) : PhoneMessage;

    /// <summary>The page is no longer in front, or is again.</summary>
    /// <param name="IsHidden">Whether it is not.</param>
    public sealed record Visibility(bool IsHidden) : PhoneMessage;

    /// <summary>What the page knows of its sensors.</summary>
    /// <param name="Trouble">What is wrong; null when nothing is.</param>
    public sealed record Sensor(string? Trouble) : PhoneMessage;

    /// <summary>A button.</summary>
    /// <param name="Button">Which.</param>
    /// <param name="Number">Counts up; a repeat of the same is one press.</param>
    public sealed record Press(PhoneButton Button, long Number) : PhoneMessage;

    /// <summary>A frame that shows this guidance was painted.</summary>
    /// <param name="Number">Of the guidance.</param>
    public sealed record Drawn(long Number) : PhoneMessage;

    /// <summary>The person stopped the page.</summary>
    public sealed record Bye : PhoneMessage;

    /// <summary>A kind that only a newer page knows.</summary>
    public sealed record Unknown : PhoneMessage;
}
