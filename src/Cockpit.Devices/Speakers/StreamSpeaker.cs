using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Devices.Speakers;

/// <summary>Plays through a device on a thread of its own; when the device dies the bell rings until it is back.</summary>
/// <remarks>Opening is tried again after 1, 2, 4, ... at most 30 s. Each change is reported once.</remarks>
internal sealed class StreamSpeaker : ISpeaker
{
    private static readonly TimeSpan FirstPause = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LongestPause = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan StopPatience = TimeSpan.FromMilliseconds(500);
    private readonly ISoundSource _source;
    private readonly IReadOnlyList<Func<ISoundOutput>> _openers;
    private readonly Action<string, string?> _report;
    private readonly BellSpeaker _bell;
    private readonly ManualResetEvent _stop = new(false);
    private readonly Thread _thread;
    private volatile ISoundOutput? _playing;
    private volatile bool _down;
    private string? _reported;

    /// <param name="source">What is played.</param>
    /// <param name="openers">Devices in the order in which they are tried.</param>
    /// <param name="ring">Rings the terminal bell.</param>
    /// <param name="report">Takes the device and what is wrong with it.</param>
    public StreamSpeaker(ISoundSource source, IReadOnlyList<Func<ISoundOutput>> openers, Action ring, Action<string, string?> report)
    {
        _source = source;
        _openers = openers;
        _bell = new BellSpeaker(ring);
        _report = report;
        _thread = new Thread(Run) { IsBackground = true, Name = "sound", Priority = ThreadPriority.AboveNormal };
        _thread.Start();
    }

    public string Device => _playing?.Name ?? _bell.Device;

    public TimeSpan Late => _playing?.Late ?? TimeSpan.Zero;

    public void Announce(Cue cue)
    {
        if (_down) { _bell.Announce(cue); }
    }

    public ValueTask DisposeAsync()
    {
        _stop.Set();

        // A driver that hangs must not hold the program; its thread is a background thread.
        if (_thread.Join(StopPatience)) { _stop.Dispose(); }

        return ValueTask.CompletedTask;
    }

    private void Run()
    {
        TimeSpan pause = FirstPause;
        try
        {
            while (true)
            {
                SoundDeviceException? trouble = PlayFirstThatOpens(ref pause);
                if (trouble is null) { return; }

                _down = true;
                Report(_bell.Device, trouble.Message);
                if (_stop.WaitOne(trouble.MayReturn ? pause : Timeout.InfiniteTimeSpan)) { return; }

                pause = pause * 2 > LongestPause ? LongestPause : pause * 2;
            }
        }
        catch (Exception e)
        {
            // Whatever it is, the pass goes on without sound.
            _down = true;
            Report(_bell.Device, $"the sound failed: {e.Message}");
        }
    }

    /// <summary>Plays until the stop (null) or until the device died or none could be opened (why).</summary>
    private SoundDeviceException? PlayFirstThatOpens(ref TimeSpan pause)
    {
        SoundDeviceException? first = null;
        foreach (Func<ISoundOutput> open in _openers)
        {
            try
            {
                using ISoundOutput output = open();
                pause = FirstPause;
                _playing = output;
                _down = false;
                Report(output.Name, null);
                output.Play(_source, _stop);
                return null;
            }
            catch (SoundDeviceException e)
            {
                first ??= e;
            }
            finally
            {
                _playing = null;
            }
        }

        return first;
    }

    private void Report(string device, string? trouble)
    {
        string now = $"{device}: {trouble}";
        if (string.Equals(now, _reported, StringComparison.Ordinal)) { return; }

        _reported = now;
        _report(device, trouble);
    }
}
