using Cockpit.Core.Sound;

namespace Cockpit.Devices.Speakers;

/// <summary>Renders block after block into a device that takes blocks.</summary>
internal sealed class PumpedOutput : ISoundOutput
{
    private readonly IBlockSink _sink;
    private readonly TimeProvider _time;
    private readonly Pacer _pacer;

    public PumpedOutput(IBlockSink sink, TimeProvider time)
    {
        _sink = sink;
        _time = time;
        _pacer = new Pacer(sink.BufferFrames, time);
    }

    public string Name => _sink.Name;

    public TimeSpan Late => _pacer.Late;

    public void Play(ISoundSource source, WaitHandle stop)
    {
        float[] block = new float[_sink.PeriodFrames * SoundFormat.Channels];
        short[] pcm = new short[block.Length];
        while (!stop.WaitOne(_pacer.Wait()))
        {
            source.Render(block);
            Pcm16.Convert(block, pcm);
            long before = _time.GetTimestamp();
            _sink.Write(pcm);
            _pacer.Wrote(_sink.PeriodFrames, _time.GetElapsedTime(before));
        }
    }

    public void Dispose() => _sink.Dispose();
}
