using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Tests.Dsp.Qpsk;

public sealed class QpskFrameLockTests
{
    private const double Slow = SpectrumTemplate.QpskRate;
    private const double Fast = SpectrumTemplate.FastQpskRate;

    public static TheoryData<double, double, QpskSending, double, double> Signals => new()
    {
        { 4e6, Slow, QpskSending.Punctured, 31_000.0, 22.0 },
        { 4.1e6, Slow, QpskSending.Plain, -64_000.0, -55.0 },
        { 4.8e6, Fast, new QpskSending(new TransmitVariant(CodeRate.ThreeQuarters, false, true), Exchanged: true, QuarterTurns: 3), 5_000.0, 40.0 },
        { 6e6, Slow, new QpskSending(new TransmitVariant(CodeRate.Half, false, false), Exchanged: true, QuarterTurns: 2), -20_000.0, -5.0 },
    };

    [Theory]
    [MemberData(nameof(Signals))]
    public void Every_variant_is_locked_within_100_ms_at_8_dB_without_being_told_the_carrier(
        double sampleRate, double symbolRate, QpskSending sending, double hertz, double ppm)
    {
        var signal = new SyntheticQpsk(sending, sampleRate, symbolRate, hertz, ppm, seed: 11);
        var frames = new QpskFrameLock(sampleRate);
        signal.Play(frames, 0.15, 8.0);
        Assert.True(frames.Locked);
        Assert.InRange(signal.Frames[0].StartSample / sampleRate, 0.0, 0.1);
        Assert.All(signal.Frames, frame => Assert.True(frame.Received));
        Assert.All(signal.Frames, frame => Assert.InRange(signal.StartError(frame), 0.0, 0.2));
        Assert.NotNull(frames.OffsetHz);
        Assert.InRange(frames.OffsetHz.Value - hertz, -100.0, 100.0);
    }

    [Fact]
    public void Frames_are_locked_at_minus_4_dB_when_the_carrier_is_known_to_8_kilohertz()
    {
        var signal = new SyntheticQpsk(QpskSending.Punctured, 4e6, Slow, 20_000.0, 10.0, seed: 12);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.2, -4.0, hintHertz: 28_000.0);
        Assert.True(frames.Locked);
        Assert.All(signal.Frames.Where(frame => frame.Received), frame => Assert.InRange(signal.StartError(frame), 0.0, 1.0));
    }

    [Fact]
    public void Noise_alone_locks_nothing()
    {
        var signal = new SyntheticQpsk(QpskSending.Punctured, 4e6, Slow, 0.0, 0.0, seed: 13);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.25, snrDb: null);
        Assert.False(frames.Locked);
        Assert.Empty(signal.Frames);
    }

    [Fact]
    public void A_signal_that_goes_is_given_up_within_150_ms_and_locked_again_within_150_ms()
    {
        var signal = new SyntheticQpsk(QpskSending.Plain, 4e6, Slow, -12_000.0, 30.0, seed: 14);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.15, 8.0);
        Assert.True(frames.Locked);
        double gone = signal.Seconds;
        signal.Play(frames, 0.15, snrDb: null);
        Assert.False(frames.Locked);
        Assert.All(signal.Frames.Where(frame => frame.StartSample / 4e6 > gone + 0.001), frame => Assert.False(frame.Received));
        signal.Play(frames, 0.15, 8.0);
        Assert.True(frames.Locked);
        Assert.True(signal.Frames[^1].Received);

        // Those that were sent meanwhile are counted as lost, without a gap and none twice.
        double[] starts = [.. signal.Frames.Select(frame => frame.StartSample)];
        double length = starts[1] - starts[0];
        Assert.All(starts.Zip(starts.Skip(1), (a, b) => b - a), step => Assert.InRange(step, 0.6 * length, 1.6 * length));
    }

    [Fact]
    public void A_gap_in_the_samples_starts_it_anew()
    {
        var signal = new SyntheticQpsk(QpskSending.Punctured, 4e6, Slow, 7_000.0, 0.0, seed: 15);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.1, 8.0);
        Assert.True(frames.Locked);
        signal.Next(8.0);
        signal.Play(frames, 0.05, 8.0);
        signal.Play(frames, 0.1, 8.0);
        Assert.True(frames.Locked);
        Assert.All(signal.Frames, frame => Assert.InRange(signal.StartError(frame), 0.0, 0.2));
    }

    [Fact]
    public void A_block_allocates_nothing()
    {
        var signal = new SyntheticQpsk(QpskSending.Punctured, 4e6, Slow, 7_000.0, 0.0, seed: 16);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.1, 8.0);
        var quiet = new Uninterested();
        for (int k = 0; k < 2; k++)
        {
            ComplexBlock block = signal.Next(8.0);
            long before = GC.GetAllocatedBytesForCurrentThread();
            frames.Take(block, new LockHint(SignalKind.Qpsk, null, Slow, null), quiet);
            Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        }
    }

    private sealed class Uninterested : IFrameSink
    {
        public void Frame(FrameEvent frame)
        {
        }

        public void Bits(ReadOnlySpan<byte> bits)
        {
        }
    }
}
