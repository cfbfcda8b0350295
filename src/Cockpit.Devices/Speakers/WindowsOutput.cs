using System.Runtime.InteropServices;
using System.Runtime.Versioning;
using Cockpit.Core.Sound;
using NAudio.Wave;

namespace Cockpit.Devices.Speakers;

/// <summary>A device of Windows, through a player that asks for blocks on its own thread.</summary>
[SupportedOSPlatform("windows")]
internal sealed class WindowsOutput : ISoundOutput
{
    private const int LatencyMs = 20;
    private readonly IWavePlayer _player;

    private WindowsOutput(string name, IWavePlayer player)
    {
        Name = name;
        _player = player;
    }

    public string Name { get; }

    public TimeSpan Late => TimeSpan.Zero;

    /// <summary>The shared mode of WASAPI.</summary>
    public static WindowsOutput OpenWasapi() => Open("WASAPI", () => new WasapiPlayerBuilder().WithSharedMode().WithLatency(LatencyMs).Build());

    /// <summary>The older interface, where WASAPI does not open.</summary>
    public static WindowsOutput OpenWinMm() => Open("WinMM", () => new WaveOut { NumberOfBuffers = 3, BufferMilliseconds = LatencyMs });

    public void Play(ISoundSource source, WaitHandle stop)
    {
        PlaybackEnd end = new();
        _player.PlaybackStopped += (_, e) => end.Tell(e.Exception);
        Guard(() =>
        {
            _player.Init(new Blocks(source));
            _player.Play();
        });
        if (end.Wait(stop, out Exception? cause))
        {
            throw new SoundDeviceException($"the sound device stopped: {cause?.Message ?? "no reason given"}", cause: cause);
        }
    }

    public void Dispose() => _player.Dispose();

    private static WindowsOutput Open(string name, Func<IWavePlayer> build)
    {
        IWavePlayer? player = null;
        Guard(() => player = build());
        return new WindowsOutput(name, player!);
    }

    private static void Guard(Action action)
    {
        try
        {
            action();
        }
        catch (Exception e) when (e is COMException or NAudio.MmException or InvalidOperationException or NotSupportedException or ArgumentException)
        {
            throw new SoundDeviceException($"no sound device: {e.Message}", cause: e);
        }
    }

    /// <summary>Hands blocks to the player as 32-bit floats.</summary>
    private sealed class Blocks(ISoundSource source) : IWaveProvider
    {
        public WaveFormat WaveFormat { get; } = WaveFormat.CreateIeeeFloatWaveFormat(SoundFormat.Rate, SoundFormat.Channels);

        public int Read(Span<byte> buffer)
        {
            Span<float> block = MemoryMarshal.Cast<byte, float>(buffer);
            block = block[..(block.Length / SoundFormat.Channels * SoundFormat.Channels)];
            source.Render(block);
            return block.Length * sizeof(float);
        }
    }
}
