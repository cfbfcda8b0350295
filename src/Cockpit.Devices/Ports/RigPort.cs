using System.Globalization;
using System.Text;

namespace Cockpit.Devices.Ports;

/// <summary>The level of a receiver behind a rig server, asked for five times a second; each answer is a line <c>level=-46</c>.</summary>
/// <param name="where">The server.</param>
/// <param name="time">What waiting goes by.</param>
/// <remarks>The unit is dB over S9, in steps of 1 dB, in practice not calibrated (rig.h of Hamlib): good for steering, not for a margin.</remarks>
public sealed class RigPort(RigAddress where, TimeProvider time) : IPort
{
    /// <summary>Time between two questions.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(200);

    private static readonly TimeSpan AfterRefusal = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan WithoutMeter = TimeSpan.FromSeconds(30);

    private bool _asksForVfo = true;

    /// <inheritdoc/>
    public string Where => where.Where;

    /// <inheritdoc/>
    public void Open()
    {
        // A server that is not there yet is no mistake: it may come later.
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        BackOff backOff = new(time);
        Complaint complaint = new(listener);
        while (true)
        {
            try
            {
                using RigLink link = await RigLink.ConnectAsync(where, _asksForVfo, time, stop);
                await PollAsync(link, complaint, listener, backOff, stop);
            }
            catch (RigException failure)
            {
                stop.ThrowIfCancellationRequested();
                _asksForVfo &= !failure.SilentVfo;
                complaint.Lost(failure.Message + "; it is tried again");
            }

            await backOff.WaitAsync(stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // A connection lives inside RunAsync and ends with it.
    }

    private async Task PollAsync(RigLink link, Complaint complaint, IPortListener listener, BackOff backOff, CancellationToken stop)
    {
        bool connected = false;
        while (true)
        {
            long asked = time.GetTimestamp();
            RigReply reply = await link.AskLevelAsync(stop);
            TimeSpan period = Period;
            if (reply.Code == 0)
            {
                if (!connected)
                {
                    connected = true;
                    backOff.Reset();
                    complaint.Connected(Where);
                }

                listener.Received(Encoding.ASCII.GetBytes($"level={reply.Value}\n"));
            }
            else
            {
                connected = false;
                complaint.Lost(reply.IsUnknown
                    ? $"{Where} has no signal meter; take the level from the recording or from another program"
                    : string.Create(CultureInfo.InvariantCulture, $"{Where} cannot tell the level (error {reply.Code}); see that the receiver behind it is on"));
                period = reply.IsUnknown ? WithoutMeter : AfterRefusal;
            }

            TimeSpan left = period - time.GetElapsedTime(asked);
            await Task.Delay(left > TimeSpan.Zero ? left : TimeSpan.Zero, time, stop);
        }
    }
}
