using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Chance;

namespace Cockpit.Tests.Dsp.Qpsk;

/// <summary>A steady synthetic signal in noise of power one, sample after sample, and what was found in it.</summary>
internal sealed class SyntheticQpsk(QpskSending sending, double sampleRate, double symbolRate, double hertz, double ppm, ulong seed) : IFrameSink
{
    private const double FirstSymbol = 0.37;

    private readonly QpskWave _wave = new(new QpskSymbolSource(sending, new Xoshiro256(seed, 1)));
    private readonly Xoshiro256 _noise = new(seed, 2);
    private readonly float[] _i = new float[(int)(sampleRate / 20.0)];
    private readonly float[] _q = new float[(int)(sampleRate / 20.0)];
    private long _sample;

    public List<FrameEvent> Frames { get; } = [];

    public List<byte[]> Decoded { get; } = [];

    public double Seconds => _sample / sampleRate;

    private double SymbolsPerSample => symbolRate * (1.0 + (ppm * 1e-6)) / sampleRate;

    public void Frame(FrameEvent frame) => Frames.Add(frame);

    public void Bits(ReadOnlySpan<byte> bits) => Decoded.Add(bits.ToArray());

    /// <summary>The next 50 ms at an Es/N0; null: noise alone.</summary>
    public ComplexBlock Next(double? snrDb)
    {
        float amplitude = snrDb is { } db ? (float)Math.Sqrt(Math.Pow(10.0, db / 10.0) * symbolRate / sampleRate) : 0.0f;
        const float Sigma = 0.70710678f;
        for (int k = 0; k < _i.Length; k++, _sample++)
        {
            (float x, float y) = _wave.At(FirstSymbol + (_sample * SymbolsPerSample));
            double turns = hertz / sampleRate * _sample;
            (double sin, double cos) = Math.SinCos(Math.Tau * (turns - Math.Floor(turns)));
            _i[k] = (float)((amplitude * ((x * cos) - (y * sin))) + (Sigma * _noise.NextNormal()));
            _q[k] = (float)((amplitude * ((x * sin) + (y * cos))) + (Sigma * _noise.NextNormal()));
        }

        return new ComplexBlock(_sample - _i.Length, _i, _q);
    }

    /// <summary>Lets a lock hear it for a time.</summary>
    public void Play(QpskFrameLock frames, double seconds, double? snrDb, double? hintHertz = null)
    {
        for (int k = 0; k < (int)Math.Round(seconds * 20.0); k++)
        {
            frames.Take(Next(snrDb), new LockHint(SignalKind.Qpsk, hintHertz, symbolRate, null), this);
        }
    }

    /// <summary>How far a told start is from the nearest true one, samples.</summary>
    public double StartError(FrameEvent frame)
    {
        double symbol = FirstSymbol + (frame.StartSample * SymbolsPerSample);
        long near = (long)Math.Round(symbol / QpskSymbolSource.StartOf(sending.Coding.Rate, 3) * 3.0);
        return Enumerable.Range(-1, 3).Select(d => near + d).Where(number => number >= 0)
            .Min(number => Math.Abs(symbol - QpskSymbolSource.StartOf(sending.Coding.Rate, number))) / SymbolsPerSample;
    }
}
