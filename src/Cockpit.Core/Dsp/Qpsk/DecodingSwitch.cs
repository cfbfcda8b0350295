namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Switches the decoder off where a core is short, and on again when there has been room for some time.</summary>
/// <remarks>
/// Off when three windows in a row took more than 0.7 of their own length; on when a hundred in a row took less than 0.35 without it.
/// Whoever is switched off again soon must wait twice as long the next time, up to 32 times: the picture of received frames shall not flicker.
/// </remarks>
public sealed class DecodingSwitch
{
    private const double High = 0.7;
    private const double Low = 0.35;
    private const int WindowsToStop = 3;
    private const int WindowsToStart = 100;
    private const int LongestWait = 32 * WindowsToStart;

    private int _high;
    private int _low;
    private int _since;
    private int _wait = WindowsToStart;

    /// <summary>Whether to decode.</summary>
    public bool On { get; private set; } = true;

    /// <summary>Takes the load of a window.</summary>
    /// <param name="load">Time that its processing took over its length; 1 = just in time.</param>
    /// <returns><see cref="On"/>.</returns>
    public bool Next(double load)
    {
        _since++;
        _high = load > High ? _high + 1 : 0;
        _low = load < Low ? _low + 1 : 0;
        if (On && _high >= WindowsToStop)
        {
            _wait = _since < LongestWait ? Math.Min(2 * _wait, LongestWait) : WindowsToStart;
            Turn(on: false);
        }
        else if (!On && _low >= _wait)
        {
            Turn(on: true);
        }

        return On;
    }

    private void Turn(bool on)
    {
        On = on;
        (_high, _low, _since) = (0, 0, 0);
    }
}
