using Cockpit.Core.Sound;

namespace Cockpit.Devices.Speakers;

/// <summary>A PCM device of ALSA, 16 bit, stereo, blocking, about 20 ms deep.</summary>
internal sealed class AlsaSink : IBlockSink
{
    private const uint LatencyMicroseconds = 20_000;
    private const int MostTriesInARow = 8;
    private readonly string _device;
    private nint _pcm;

    private AlsaSink(string device, nint pcm)
    {
        _device = device;
        _pcm = pcm;
    }

    public string Name => $"ALSA {_device}";

    public int PeriodFrames { get; private set; }

    public int BufferFrames { get; private set; }

    /// <summary>Opens a device.</summary>
    /// <param name="device">Its ALSA name, "default" for what the user has chosen.</param>
    /// <exception cref="SoundDeviceException">There is none, or it does not take the format.</exception>
    public static AlsaSink Open(string device)
    {
        try
        {
            AlsaLibrary.BeQuiet();
            Check(AlsaLibrary.Open(out nint pcm, device, AlsaLibrary.Playback, 0), "no sound device");
            AlsaSink sink = new(device, pcm);
            try
            {
                sink.SetUp();
                return sink;
            }
            catch (SoundDeviceException)
            {
                sink.Dispose();
                throw;
            }
        }
        catch (DllNotFoundException e)
        {
            throw new SoundDeviceException("no sound: libasound.so.2 is not installed", mayReturn: false, e);
        }
    }

    public void Write(ReadOnlySpan<short> block)
    {
        int tries = 0;
        while (!block.IsEmpty)
        {
            nint written = AlsaLibrary.Write(_pcm, block, (nuint)(block.Length / SoundFormat.Channels));
            if (written >= 0)
            {
                block = block[(int)(written * SoundFormat.Channels)..];
                tries = written > 0 ? 0 : tries + 1;
            }
            else
            {
                // An underrun or a suspended card recovers; a card that was pulled out does not.
                Check(AlsaLibrary.Recover(_pcm, (int)written, 1), "the sound device failed");
                tries++;
            }

            if (tries > MostTriesInARow) { throw new SoundDeviceException("the sound device takes no more samples"); }
        }
    }

    public void Dispose()
    {
        nint pcm = Interlocked.Exchange(ref _pcm, 0);
        if (pcm != 0) { _ = AlsaLibrary.Close(pcm); }
    }

    private static void Check(int result, string what)
    {
        if (result < 0) { throw new SoundDeviceException($"{what}: {AlsaLibrary.Describe(result)}"); }
    }

    private void SetUp()
    {
        Check(
            AlsaLibrary.SetParameters(_pcm, AlsaLibrary.FormatS16LittleEndian, AlsaLibrary.AccessInterleaved, SoundFormat.Channels, SoundFormat.Rate, 1, LatencyMicroseconds),
            "the sound device does not take 48 kHz stereo");
        Check(AlsaLibrary.GetParameters(_pcm, out nuint buffer, out nuint period), "the sound device does not tell its size");
        PeriodFrames = (int)Math.Clamp(period, 48, 4800);
        BufferFrames = (int)Math.Clamp(buffer, (nuint)PeriodFrames, 48000);
    }
}
