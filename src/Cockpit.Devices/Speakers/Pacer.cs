using Cockpit.Core.Sound;

namespace Cockpit.Devices.Speakers;

/// <summary>Keeps a stream a fixed time ahead of the clock when the device itself does not make the writer wait.</summary>
/// <remarks>
/// A sound card takes a block, and once it is full makes the writer wait: then it is the clock, and this is silent. A file
/// takes everything at once, and a cue given now would come out after all that was written ahead: then this waits.
/// </remarks>
/// <param name="aheadFrames">So much may be written ahead, frames.</param>
/// <param name="time">The clock.</param>
internal sealed class Pacer(int aheadFrames, TimeProvider time)
{
    private static readonly TimeSpan Blocked = TimeSpan.FromMilliseconds(1);
    private readonly TimeSpan _ahead = Length(aheadFrames);
    private long? _start;
    private TimeSpan _written;
    private TimeSpan _shift;

    /// <summary>How far the stream has fallen behind the clock, in all: stalls, and the drift of a card's own clock.</summary>
    public TimeSpan Late => _shift;

    /// <summary>How long to wait before the next block.</summary>
    public TimeSpan Wait()
    {
        TimeSpan lead = Lead();
        return lead > _ahead ? lead - _ahead : TimeSpan.Zero;
    }

    /// <summary>A block was written.</summary>
    /// <param name="frames">Its length.</param>
    /// <param name="took">How long the device took for it.</param>
    public void Wrote(int frames, TimeSpan took)
    {
        _written += Length(frames);
        TimeSpan lead = Lead();
        if (took > Blocked)
        {
            // The device made us wait, so it is full: that is where the stream is, whatever the clock says.
            _shift += _ahead - lead;
        }
        else if (lead < TimeSpan.Zero)
        {
            _shift -= lead;
        }
    }

    private static TimeSpan Length(int frames) => TimeSpan.FromSeconds(frames / (double)SoundFormat.Rate);

    private TimeSpan Lead()
    {
        _start ??= time.GetTimestamp();
        return _written + _shift - time.GetElapsedTime(_start.Value);
    }
}
