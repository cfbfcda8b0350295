namespace Cockpit.Devices.Ports;

/// <summary>How long to wait before the next try: 1, 2, 5, then always 10 s.</summary>
/// <param name="time">What the waiting goes by.</param>
public sealed class BackOff(TimeProvider time)
{
    private static readonly int[] Seconds = [1, 2, 5, 10];

    private int _tries;

    /// <summary>Waits before the next try.</summary>
    public async Task WaitAsync(CancellationToken stop)
    {
        int seconds = Seconds[Math.Min(_tries, Seconds.Length - 1)];
        _tries++;
        await Task.Delay(TimeSpan.FromSeconds(seconds), time, stop);
    }

    /// <summary>It worked: the next failure starts from 1 s again.</summary>
    public void Reset() => _tries = 0;
}
