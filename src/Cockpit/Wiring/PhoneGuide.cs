using Cockpit.Devices.Phone;
using Cockpit.Session.Handset;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Gives the phone on the dish what it is to show, snapshot by snapshot; nothing waits for it.</summary>
/// <param name="phone">The phone.</param>
public sealed class PhoneGuide(PhoneFeed phone)
{
    private HandsetMemory _memory = HandsetMemory.Empty;

    /// <summary>Takes the next moment.</summary>
    public void Follow(Snapshot snapshot)
    {
        _memory = HandsetComputer.Next(_memory, snapshot);
        phone.Show(HandsetComputer.Derive(_memory, snapshot, phone.Axis));
    }
}
