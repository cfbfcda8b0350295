
namespace Cockpit.Devices.Phone;

/// <summary>Sends the latest guidance, ten times a second; what was too slow to be sent is never sent later.</summary>
internal static class GuidancePump
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(100);
    private static long _number;

    /// <summary>Sends until it is stopped.</summary>
    /// <param name="setting">Where the guidance comes from.</param>
    /// <param name="send">Sends one message.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task RunAsync(PhoneSetting setting, Func<byte[], ValueTask> send, CancellationToken stop)
    {
        using PeriodicTimer timer = new(Period, setting.Time);
        do
        {
            // Nothing of now is known: the page sees by itself that nothing comes.
            if (setting.Guidance() is { } guidance)
            {
                long number = Interlocked.Increment(ref _number);
                setting.Desk.Timings.Sent(number, setting.Time);
                await send(GuidanceJson.Of(guidance, number));
            }
        }
        while (await timer.WaitForNextTickAsync(stop));
    }
}
