namespace Cockpit.Devices.Phone;

/// <summary>How much a page may say: what is over it is dropped, and who goes on all the same is cut off. Not safe from several threads.</summary>
/// <param name="time">What it goes by.</param>
public sealed class PhoneAllowance(TimeProvider time)
{
    /// <summary>Messages a second.</summary>
    public const double PerSecond = 40.0;

    /// <summary>Messages at once.</summary>
    public const double Burst = 60.0;

    /// <summary>So many dropped in a row are a flood.</summary>
    public const int Flood = 120;

    private double _left = Burst;
    private long _at = time.GetTimestamp();
    private int _dropped;

    /// <summary>Whether one more may be taken.</summary>
    public bool Take()
    {
        long now = time.GetTimestamp();
        _left = Math.Min(Burst, _left + (PerSecond * time.GetElapsedTime(_at, now).TotalSeconds));
        _at = now;
        if (_left < 1.0)
        {
            _dropped++;
            return false;
        }

        _left -= 1.0;
        _dropped = _left > 0.5 * Burst ? 0 : _dropped;
        return true;
    }

    /// <summary>Whether it is a flood by now.</summary>
    public bool IsFlood => _dropped >= Flood;
}
