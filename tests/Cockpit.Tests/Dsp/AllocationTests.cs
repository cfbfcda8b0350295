using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Tests.Dsp;

public sealed class AllocationTests
{
    [Theory]
    [InlineData(SignalKind.SplitPhase, 3e6)]
    [InlineData(SignalKind.Qpsk, 4e6)]
    [InlineData(SignalKind.None, 3e6)]
    public void Windows_and_frames_allocate_nothing(SignalKind kind, double rate)
    {
        IqGenerator generator = new(new IqScenario { Kind = kind, SampleRate = rate, Seconds = 0.8, SnrDb = [new(0, 12)], DopplerHz = [new(0, 9_000)] });
        float[] i = new float[generator.TotalSamples], q = new float[i.Length];
        generator.Next(i, q);
        byte[] bytes = new byte[4 * i.Length];
        SampleWriter.Write(SampleFormat.Ci16Le, i, q, bytes);

        // What is made once for a process, and a collection of another test's garbage at the wrong moment, are counted too: the least of a few runs tells.
        Assert.Equal(0, Enumerable.Range(0, 5).Min(_ => AllocatedInSecondHalf(bytes, kind, rate)));
    }

    private static long AllocatedInSecondHalf(byte[] bytes, SignalKind kind, double rate)
    {
        SignalMeter meter = new(rate, SampleFormat.Ci16Le, FrameLocks.For(rate));
        Counter counter = new();
        int half = bytes.Length / 2;
        meter.Take(bytes.AsSpan(0, half), counter);
        int framesBefore = counter.Frames;
        long before = GC.GetAllocatedBytesForCurrentThread();
        meter.Take(bytes.AsSpan(half), counter);
        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.Equal(8, counter.Windows);
        Assert.Equal(kind != SignalKind.None, counter.Frames > framesBefore);
        return allocated;
    }

    private sealed class Counter : IMeterSink
    {
        public int Windows { get; private set; }

        public int Frames { get; private set; }

        public void Window(in MeterReading reading) => Windows++;

        public void Frame(FrameEvent frame) => Frames++;

        public void Bits(ReadOnlySpan<byte> bits)
        {
            // Only memory counts.
        }
    }
}
