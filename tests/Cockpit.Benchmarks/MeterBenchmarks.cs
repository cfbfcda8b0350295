using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Benchmarks;

/// <summary>The meter and its frame locks against real time, on one core, from the bytes of 16-bit samples to windows and frames.</summary>
internal sealed class MeterBenchmarks
{
    private const int Rounds = 7;
    private const int ViterbiBlocks = 2000;

    private readonly byte[] _bytes;
    private readonly double _seconds;
    private readonly SignalMeter _meter;
    private readonly Nobody _sink = new();

    private MeterBenchmarks(IqScenario scenario, ImmutableArray<IFrameLock> locks)
    {
        IqGenerator generator = new(scenario);
        float[] i = new float[generator.TotalSamples], q = new float[i.Length];
        generator.Next(i, q);
        _bytes = new byte[i.Length * SampleFormat.Ci16Le.BytesPerSample()];
        SampleWriter.Write(SampleFormat.Ci16Le, i, q, _bytes);
        _seconds = scenario.Seconds;
        _meter = new SignalMeter(scenario.SampleRate, SampleFormat.Ci16Le, locks);
    }

    /// <summary>Prints a row for each.</summary>
    internal static void Run(TextWriter output)
    {
        IqScenario split = new() { Seconds = 2, SnrDb = [new(0, 10)], DopplerHz = [new(0, 21_000)], ClockPpm = 12 };
        IqScenario qpsk = split with { Kind = SignalKind.Qpsk, SampleRate = 6_000_000, Seconds = 1 };
        QpskFrameLock Markers() => new(qpsk.SampleRate) { Decoding = false };
        (string Name, double Asked, MeterBenchmarks It)[] rows =
        [
            ("split-phase 3 Msps, meter", 15, new(split, [])),
            ("split-phase 3 Msps, meter and frame lock", 5, new(split, [new SplitPhaseLock(split.SampleRate)])),
            ("QPSK 6 Msps, meter", 3, new(qpsk, [])),
            ("QPSK 6 Msps, meter and marker lock", 3, new(qpsk, [Markers()])),
            ("QPSK 6 Msps, meter, marker lock and decoding", 1, new(qpsk, [new QpskFrameLock(qpsk.SampleRate)])),
            ("noise 3 Msps, meter", 15, new(split with { Kind = SignalKind.None }, [])),
        ];
        output.WriteLine($"{"",-46} {"x real time",11} {"asked",6} {"bytes a block",14}");
        foreach ((string name, double asked, MeterBenchmarks it) in rows)
        {
            (double speed, double bytes) = it.Speed();
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-46} {speed,11:0.0} {asked,6:0} {bytes,14:0.0}"));
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{"Viterbi decoder, Mb/s",-46} {Viterbi(),11:0.0}"));
        output.WriteLine("By processor time, the median of some rounds on one thread; other work on the machine takes caches and clock away all the same.");
    }

    private void Turn()
    {
        _meter.Skip(0);
        const int Piece = 1 << 18;
        for (int at = 0; at < _bytes.Length; at += Piece)
        {
            _meter.Take(_bytes.AsSpan(at, Math.Min(Piece, _bytes.Length - at)), _sink);
        }
    }

    private (double Speed, double Bytes) Speed()
    {
        Turn();
        Turn();
        double[] speeds = new double[Rounds];
        using var self = Process.GetCurrentProcess();
        long allocated = 0;
        for (int k = 0; k < Rounds; k++)
        {
            self.Refresh();
            TimeSpan before = self.TotalProcessorTime;
            long bytes = GC.GetAllocatedBytesForCurrentThread();
            Turn();
            allocated += GC.GetAllocatedBytesForCurrentThread() - bytes;
            self.Refresh();
            speeds[k] = _seconds / (self.TotalProcessorTime - before).TotalSeconds;
        }

        Array.Sort(speeds);
        return (speeds[Rounds / 2], allocated / (Rounds * _seconds * SignalMeter.WindowsPerSecond));
    }

    private static double Viterbi()
    {
        ViterbiDecoder decoder = new();
        sbyte[] soft = new sbyte[2 * ViterbiDecoder.BlockBits];
        byte[] bits = new byte[ViterbiDecoder.BlockBits];
        for (int k = 0; k < soft.Length; k++)
        {
            soft[k] = (sbyte)(((k * 37) % 63) - 31);
        }

        double[] speeds = new double[Rounds];
        using var self = Process.GetCurrentProcess();
        for (int round = -2; round < Rounds; round++)
        {
            self.Refresh();
            TimeSpan before = self.TotalProcessorTime;
            for (int k = 0; k < ViterbiBlocks; k++)
            {
                decoder.Decode(soft, bits);
            }

            self.Refresh();
            speeds[Math.Max(round, 0)] = (double)ViterbiBlocks * ViterbiDecoder.BlockBits / (self.TotalProcessorTime - before).TotalSeconds / 1e6;
        }

        Array.Sort(speeds);
        return speeds[Rounds / 2];
    }

    private sealed class Nobody : IMeterSink
    {
        public void Window(in MeterReading reading)
        {
            // Only the work counts.
        }

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
