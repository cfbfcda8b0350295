using Cockpit.Devices.Phone;

namespace Cockpit.Wiring;

/// <summary>Shows how a phone is paired until one is, and again when somebody asks for it. Safe from several threads.</summary>
public sealed class PhoneDoor
{
    private readonly Lock _gate = new();
    private readonly PhoneFeed _phone;
    private readonly Action<string?, bool> _show;
    private readonly bool _keyless;
    private string? _shown;

    /// <summary>Shows it.</summary>
    /// <param name="phone">Started already.</param>
    /// <param name="show">Told the address, or null, and whether somebody asked.</param>
    /// <param name="keyless">Nobody can ask: a new address is told by itself when the phone is gone.</param>
    public PhoneDoor(PhoneFeed phone, Action<string?, bool> show, bool keyless)
    {
        ArgumentNullException.ThrowIfNull(phone);
        (_phone, _show, _keyless) = (phone, show, keyless);
        Show(phone.Server?.Address, asked: false);
        phone.StateChanged = Follow;
    }

    /// <summary>Shows it for another phone, or takes it away.</summary>
    public void Toggle() => Show(Volatile.Read(ref _shown) is null ? _phone.Server?.FreshAddress() : null, asked: true);

    private void Follow(PhoneState state)
    {
        if (state is PhoneState.Paired or PhoneState.Speaking)
        {
            Show(null, asked: false);
        }
        else if (_keyless && state == PhoneState.Gone)
        {
            Show(_phone.Server?.FreshAddress(), asked: false);
        }
    }

    private void Show(string? address, bool asked)
    {
        lock (_gate)
        {
            if (!string.Equals(address, _shown, StringComparison.Ordinal))
            {
                _shown = address;
                _show(address, asked);
            }
        }
    }
}
