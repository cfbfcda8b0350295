
namespace Cockpit.Devices.Outlets;

/// <summary>Stands in for a program that sends lines, and behaves as badly as it is told to.</summary>
/// <param name="outlet">Where the lines go; the sender owns it.</param>
/// <param name="line">The line, with its end, at a time since the start; null while there is nothing to say.</param>
/// <param name="settings">How it behaves.</param>
/// <param name="time">What it goes by.</param>
public sealed class LineSender(IOutlet outlet, Func<TimeSpan, byte[]?> line, SenderSettings settings, TimeProvider time) : IAsyncDisposable
{
    private bool _here;

    /// <summary>Lines sent so far, rubbish too.</summary>
    public long Sent { get; private set; }

    /// <summary>Stands ready; to be called once before <see cref="RunAsync"/>.</summary>
    /// <exception cref="Ports.PortException">The place cannot be had.</exception>
    public void Open()
    {
        outlet.Appear();
        _here = true;
    }

    /// <summary>Sends until it is told to stop.</summary>
    /// <exception cref="OperationCanceledException">It was told to stop.</exception>
    /// <exception cref="IOException">The outlet failed for good.</exception>
    public async Task RunAsync(CancellationToken stop)
    {
        long start = time.GetTimestamp();
        using PeriodicTimer timer = new(TimeSpan.FromSeconds(1 / settings.LinesPerSecond), time);
        do
        {
            await StepAsync(time.GetElapsedTime(start), stop);
        }
        while (await timer.WaitForNextTickAsync(stop));
    }

    /// <summary>Does what is due at a time since the start.</summary>
    internal async Task StepAsync(TimeSpan elapsed, CancellationToken stop)
    {
        bool away = settings.Away.At(elapsed);
        if (away && _here)
        {
            outlet.Leave();
        }
        else if (!away && !_here)
        {
            outlet.Appear();
        }

        _here = !away;
        if (_here && !settings.Stall.At(elapsed) && line(elapsed) is { } bytes)
        {
            await outlet.SendAsync(bytes, stop);
            Sent++;
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => outlet.DisposeAsync();
}
