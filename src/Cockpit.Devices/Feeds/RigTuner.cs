using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>Keeps a receiver behind a rig server on the Doppler-corrected frequency, and tells once a second where it is.</summary>
/// <remarks>
/// Runs only where the person asked for it. Sets at most twice a second, and only what is more than <see cref="Step"/> off; never further from the
/// carrier than a low orbit can shift it, because the server itself checks no range.
/// </remarks>
/// <param name="where">The server.</param>
/// <param name="name">Name of the feed.</param>
/// <param name="carrier">As the satellite sends it.</param>
public sealed class RigTuner(RigAddress where, string name, Frequency carrier) : IFeed
{
    /// <summary>Smaller changes are not worth a command that a receiver may hear as a click: the slope is below 0.5 kHz/s.</summary>
    public static readonly Frequency Step = new(500);

    /// <summary>Twice what 8 km/s shift a carrier of 2.3 GHz.</summary>
    public static readonly Frequency LargestShift = new(125_000);

    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan ClosingPatience = TimeSpan.FromSeconds(2);

    private readonly CancellationTokenSource _stop = new();
    private FeedPublisher? _publisher;
    private Task _run = Task.CompletedTask;
    private bool _asksForVfo = true;
    private double _wanted = double.NaN;

    /// <inheritdoc/>
    public string Name => name;

    /// <summary>What the receiver should be tuned to from now on; null = leave it alone. From any thread.</summary>
    public void Want(Frequency? frequency)
    {
        double hertz = frequency?.Hertz ?? double.NaN;
        Volatile.Write(ref _wanted, Math.Abs(hertz - carrier.Hertz) <= LargestShift.Hertz ? hertz : double.NaN);
    }

    /// <inheritdoc/>
    public void Open()
    {
        // A server that is not there yet is no mistake: it may come later.
    }

    /// <inheritdoc/>
    public void Start(IEventSink sink, TimeProvider time)
    {
        _publisher = new FeedPublisher(name, sink, time);
        _run = Task.Run(() => RunAsync(_publisher, time, _stop.Token));
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await Task.WhenAny(_run, Task.Delay(ClosingPatience, TimeProvider.System, CancellationToken.None));
        _publisher?.Dispose();
        _stop.Dispose();
    }

    private async Task RunAsync(FeedPublisher publisher, TimeProvider time, CancellationToken stop)
    {
        BackOff backOff = new(time);
        string? told = null;
        while (!stop.IsCancellationRequested)
        {
            string trouble;
            try
            {
                using RigLink link = await RigLink.ConnectAsync(where, _asksForVfo, time, stop);
                trouble = await TuneAsync(link, publisher, time, () =>
                {
                    backOff.Reset();
                    told = null;
                },
                stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
            catch (RigException failure)
            {
                _asksForVfo &= !failure.SilentVfo;
                trouble = failure.Message;
            }
#pragma warning disable CA1031 // A feed's loop: whatever fails in it is told and tried again, the pass goes on.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                trouble = $"tuning failed ({failure.Message.TrimEnd('.')})";
            }

            if (!string.Equals(told, trouble, StringComparison.Ordinal))
            {
                told = trouble;
                publisher.Lost(trouble + "; it is tried again");
            }

            await backOff.WaitAsync(stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task<string> TuneAsync(RigLink link, FeedPublisher publisher, TimeProvider time, Action worked, CancellationToken stop)
    {
        bool connected = false;
        for (long turn = 0; ; turn++)
        {
            long began = time.GetTimestamp();
            RigReply reply = await link.AskFrequencyAsync(stop);
            if (reply.Code != 0 || !NumberText.TryRead(reply.Value, out double tuned) || tuned is < 0 or > 1e12)
            {
                return string.Create(CultureInfo.InvariantCulture, $"{where.Where} does not tell its frequency (error {reply.Code}); see that the receiver behind it is on");
            }

            if (!connected)
            {
                connected = true;
                worked();
                publisher.Connected(where.Where);
            }

            double wanted = Volatile.Read(ref _wanted);
            if (Math.Abs(wanted - tuned) > Step.Hertz)
            {
                long hertz = (long)Math.Round(wanted);
                RigReply done = await link.TuneAsync(hertz, stop);
                if (done.Code != 0)
                {
                    return string.Create(CultureInfo.InvariantCulture, $"{where.Where} does not take {hertz} Hz (error {done.Code})");
                }

                publisher.Measured(new ReceiverTuned(name, new Frequency(hertz)));
            }
            else if (turn % 2 == 0)
            {
                publisher.Measured(new ReceiverTuned(name, new Frequency(tuned)));
            }

            TimeSpan left = Period - time.GetElapsedTime(began);
            await Task.Delay(left > TimeSpan.Zero ? left : TimeSpan.Zero, time, stop);
        }
    }
}
