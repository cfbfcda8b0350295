using BenchmarkDotNet.Attributes;
using Cockpit.Core.Chance;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Benchmarks;

/// <summary>Coded QPSK at 2.3333 Msym/s in 6 Msps: 100 ms to frames, by the marker alone and decoded; the search for a marker that is not there; the Viterbi decoder alone.</summary>
[MemoryDiagnoser]
public class QpskBenchmarks
{
    private const double SampleRate = 6e6;
    private const double SymbolRate = 7e6 / 3.0;
    private const int Block = 600_000;
    private const int Blocks = 5;
    private const int ViterbiBlocks = 500;

    private readonly float[] _i = new float[Block * Blocks];
    private readonly float[] _q = new float[Block * Blocks];
    private readonly sbyte[] _soft = new sbyte[2 * ViterbiDecoder.BlockBits];
    private readonly byte[] _bits = new byte[ViterbiDecoder.BlockBits];
    private readonly ViterbiDecoder _viterbi = new();
    private readonly QpskFrameLock _marker = new(SampleRate) { Decoding = false };
    private readonly QpskFrameLock _decoded = new(SampleRate);
    private readonly Nobody _sink = new();

    /// <summary>Makes half a second of signal at 8 dB, 20 kHz off.</summary>
    public QpskBenchmarks()
    {
        var random = new Xoshiro256(1, 2);
        var wave = new QpskWave(new QpskSymbolSource(QpskSending.Punctured, new Xoshiro256(1, 1)));
        float amplitude = (float)Math.Sqrt(Math.Pow(10.0, 0.8) * SymbolRate / SampleRate);
        for (int n = 0; n < _i.Length; n++)
        {
            (float x, float y) = wave.At(n * SymbolRate / SampleRate);
            (double sin, double cos) = Math.SinCos(Math.Tau * 20e3 / SampleRate * n);
            _i[n] = (float)((amplitude * ((x * cos) - (y * sin))) + (Math.Sqrt(0.5) * random.NextNormal()));
            _q[n] = (float)((amplitude * ((x * sin) + (y * cos))) + (Math.Sqrt(0.5) * random.NextNormal()));
        }

        foreach (ref sbyte soft in _soft.AsSpan())
        {
            soft = (sbyte)(random.NextBelow(63) - 31);
        }
    }

    /// <summary>Samples to markers.</summary>
    [Benchmark]
    public void Markers() => Turn(_marker);

    /// <summary>Samples to decoded frames.</summary>
    [Benchmark]
    public void Decoded() => Turn(_decoded);

    /// <summary>Viterbi decoder.</summary>
    [Benchmark]
    public void Viterbi()
    {
        for (int k = 0; k < ViterbiBlocks; k++)
        {
            _viterbi.Decode(_soft, _bits);
        }
    }

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        var b = new QpskBenchmarks();
        yield return ("QPSK samples to markers", Block * Blocks, b.Markers);
        yield return ("QPSK samples to decoded frames", Block * Blocks, b.Decoded);
        yield return ("Viterbi decoder, bits", ViterbiBlocks * ViterbiDecoder.BlockBits, b.Viterbi);
    }

    private void Turn(QpskFrameLock frames)
    {
        for (int k = 0; k < Blocks; k++)
        {
            var block = new ComplexBlock(k * Block, _i.AsSpan(k * Block, Block), _q.AsSpan(k * Block, Block));
            frames.Take(block, new LockHint(SignalKind.Qpsk, null, SymbolRate, null), _sink);
        }

        if (!frames.Locked)
        {
            throw new InvalidOperationException("the signal of the benchmark was not locked");
        }
    }

    private sealed class Nobody : IFrameSink
    {
        public void Frame(FrameEvent frame)
        {
            // Only the work counts.
        }

        public void Bits(ReadOnlySpan<byte> bits)
        {
            // Only the work counts.
        }
    }
}
