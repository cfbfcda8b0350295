namespace Cockpit.Devices.Ports;

/// <summary>Tells a listener why a port is lost, once for each reason.</summary>
internal sealed class Complaint(IPortListener listener)
{
    private string? _last;

    internal void Lost(string reason)
    {
        if (!string.Equals(_last, reason, StringComparison.Ordinal))
        {
            _last = reason;
            listener.Lost(reason);
        }
    }

    internal void Connected(string where, bool startsInside = false)
    {
        _last = null;
        listener.Connected(where, startsInside);
    }
}
