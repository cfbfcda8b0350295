using Cockpit.Session.Handset;

namespace Cockpit.Devices.Phone;

/// <summary>What the connections of one server share.</summary>
/// <param name="Desk">Where all that phones say comes together.</param>
/// <param name="Guidance">What to show now; null where nothing of now is known. Any thread, returns at once.</param>
/// <param name="Place">Address and port as they stand in the page's address.</param>
/// <param name="Time">What waiting goes by.</param>
/// <param name="Ending">The server ends.</param>
internal sealed record PhoneSetting(PhoneDesk Desk, Func<HandsetGuidance?> Guidance, string Place, TimeProvider Time, CancellationToken Ending)
{
    /// <summary>Where a page has to come from that may speak.</summary>
    public string Origin => $"https://{Place}";
}
