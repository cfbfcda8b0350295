using BenchmarkDotNet.Attributes;
using Cockpit.Core.Sound;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Benchmarks;

/// <summary>Rendering blocks of 5 ms: in silence, with the tone of the search, with a cue of the richest sound. 200 blocks a second are played.</summary>
[MemoryDiagnoser]
public class SoundBenchmarks
{
    private const int Blocks = 4000;
    private readonly float[] _block = new float[SoundFormat.Frames(5.0) * SoundFormat.Channels];
    private readonly short[] _pcm = new short[SoundFormat.Frames(5.0) * SoundFormat.Channels];
    private readonly Cue _warning = CueTable.Warning("recording stopped");
    private readonly Mixer _silent = new();
    private readonly Mixer _searching = new();
    private readonly Mixer _warned = new();

    /// <summary>Nothing sounds.</summary>
    [Benchmark]
    public void Silence() => Turn(_silent);

    /// <summary>The tone of the search, unbroken.</summary>
    [Benchmark]
    public void PeakTone()
    {
        _searching.SetPeak(700.0, 0.0);
        Turn(_searching);
    }

    /// <summary>The first pulse of a warning, started with the block.</summary>
    [Benchmark]
    public void Warning()
    {
        _warned.Start(_warning.Priority, _warning.Tones.AsSpan());
        Turn(_warned);
    }

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        var b = new SoundBenchmarks();
        yield return ("sound block of 5 ms, silence", Blocks, () => Many(b.Silence));
        yield return ("sound block of 5 ms, search tone", Blocks, () => Many(b.PeakTone));
        yield return ("sound block of 5 ms, warning", Blocks, () => Many(b.Warning));
    }

    private static void Many(Action block)
    {
        for (int i = 0; i < Blocks; i++) { block(); }
    }

    private void Turn(Mixer mixer)
    {
        mixer.Render(_block);
        Pcm16.Convert(_block, _pcm);
    }
}
