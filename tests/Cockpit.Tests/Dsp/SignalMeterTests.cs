using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Tests.Dsp;

/// <summary>The meter against the generator's truth. Limits: those of the task of such a meter, with room; no published source.</summary>
public sealed class SignalMeterTests
{
    [Theory]
    [InlineData(SignalKind.SplitPhase, 3e6, -5, 0.4)]
    [InlineData(SignalKind.SplitPhase, 3e6, 5, 0.15)]
    [InlineData(SignalKind.SplitPhase, 2.4e6, 15, 0.3)]
    [InlineData(SignalKind.Qpsk, 4.7e6, 0, 0.15)]
    [InlineData(SignalKind.Qpsk, 6e6, 12, 0.15)]
    public void Level_kind_and_offset_are_those_that_were_made(SignalKind kind, double rate, double snr, double limit)
    {
        MadeUp made = MadeUp.Of(
            new IqScenario { Kind = kind, SampleRate = rate, Seconds = 0.5, SnrDb = [new(0, snr)], DopplerHz = [new(0, 21_000), new(1, 20_600)], ClockPpm = 11 },
            locks: false);

        Assert.All(made.Windows, w => Assert.Equal(kind, w.Kind));
        Assert.All(made.SnrErrors, e => Assert.InRange(e, -limit * 1.5, limit * 1.5));
        Assert.InRange(made.SnrErrors.Average(), -limit, limit);
        if (kind == SignalKind.SplitPhase || snr > 5)
        {
            Assert.All(made.Windows.Zip(made.Truth.Windows), p => Assert.Equal(p.Second.OffsetHz!.Value, p.First.OffsetHz!.Value, 30.0));
        }
    }

    [Fact]
    public void A_picture_and_an_interferer_do_not_change_the_snr()
    {
        MadeUp picture = MadeUp.Of(new IqScenario { Seconds = 0.5, Picture = true, SnrDb = [new(0, 12)], DopplerHz = [new(0, -31_000)] }, locks: false);
        MadeUp troubled = MadeUp.Of(
            new IqScenario { Seconds = 0.5, SnrDb = [new(0, 8)], Interferers = [new(700e3, 200e3, 10), new(-40e3, 0, 8)], DcDb = 3, Format = SampleFormat.Cu8 },
            locks: false);

        Assert.All(picture.SnrErrors, e => Assert.InRange(e, -0.3, 0.3));
        Assert.All(troubled.SnrErrors, e => Assert.InRange(e, -0.3, 0.3));
    }

    [Theory]
    [InlineData(1e6)]
    [InlineData(3e6)]
    [InlineData(6e6)]
    public void Noise_is_no_signal_and_has_the_right_floor(double rate)
    {
        MadeUp made = MadeUp.Of(new IqScenario { Kind = SignalKind.None, SampleRate = rate, Seconds = 1, DcDb = -3, Rms = 0.1 });

        Assert.All(made.Windows, w => Assert.Equal(SignalKind.None, w.Kind));
        Assert.All(made.Windows, w => Assert.False(w.Locked));

        // Rms 0.1 for each component is -17 dBFS in all; half as much DC as noise leaves 1.76 dB less.
        Assert.All(made.Windows, w => Assert.Equal(-16.99 - 1.76, w.NoiseDbfs!.Value, 0.1));
    }

    [Fact]
    public void A_bare_carrier_is_called_so()
    {
        MadeUp made = MadeUp.Of(new IqScenario { Kind = SignalKind.Carrier, SampleRate = 1e6, Seconds = 0.3, SnrDb = [new(0, 5)], DopplerHz = [new(0, -9_000)] });

        Assert.All(made.Windows, w => Assert.Equal(SignalKind.Carrier, w.Kind));
        Assert.All(made.Windows.Zip(made.Truth.Windows), p => Assert.Equal(p.Second.CarrierToNoiseDbHz!.Value, p.First.CarrierToNoiseDbHz!.Value, 0.2));
        Assert.All(made.Windows, w => Assert.Null(w.SnrDb));
    }

    [Fact]
    public void Bytes_may_come_in_any_pieces()
    {
        IqScenario scenario = new() { Seconds = 0.4, Seed = 3 };
        MadeUp whole = MadeUp.Of(scenario);
        (byte[] bytes, _) = MadeUp.Bytes(scenario);
        MadeUp pieces = MadeUp.Of(scenario with { Seconds = 0 });
        SignalMeter meter = new(scenario.SampleRate, scenario.Format, Cockpit.Core.Dsp.Frames.FrameLocks.For(scenario.SampleRate));
        for (int at = 0, size = 1; at < bytes.Length; at += size, size = 1 + ((size * 7919) % 100_003))
        {
            meter.Take(bytes.AsSpan(at, Math.Min(size, bytes.Length - at)), pieces);
        }

        Assert.Equal(whole.Windows, pieces.Windows);
        Assert.Equal(whole.Frames, pieces.Frames);
    }

    [Fact]
    public void Nothing_is_allocated_for_a_block()
    {
        IqScenario scenario = new() { Seconds = 0.6 };
        (byte[] bytes, _) = MadeUp.Bytes(scenario);
        SignalMeter meter = new(scenario.SampleRate, scenario.Format, Cockpit.Core.Dsp.Frames.FrameLocks.For(scenario.SampleRate));
        Deaf sink = new();
        meter.Take(bytes, sink);

        // Another test's collection may put a part of its own on this thread: the least of several runs tells.
        long least = long.MaxValue;
        for (int run = 0; run < 5; run++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            meter.Take(bytes, sink);
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        Assert.Equal(36, sink.Windows);
        Assert.InRange(least, 0, 2000);
    }

    [Fact]
    public void The_amplifier_that_goes_off_is_told_and_told_no_more_when_it_is_on_again()
    {
        SignalMeter meter = new(1e6, SampleFormat.Cf32Le, []);
        MadeUp sink = MadeUp.Of(new IqScenario { Kind = SignalKind.None, SampleRate = 1e6, Seconds = 0 });
        foreach ((double rms, double seconds) in new[] { (0.1, 2.0), (0.03, 2.0), (0.1, 0.5) })
        {
            meter.Take(MadeUp.Bytes(new IqScenario { Kind = SignalKind.None, SampleRate = 1e6, Seconds = seconds, Rms = rms, Format = SampleFormat.Cf32Le }).Bytes, sink);
        }

        bool[] off = [.. sink.Windows.Select(w => w.Warnings.HasFlag(MeterWarnings.AmplifierOff))];
        Assert.DoesNotContain(true, off[..29]);
        Assert.All(off[30..40], Assert.True);
        Assert.False(off[^1]);
    }

    [Fact]
    public void Overload_and_too_little_gain_are_told()
    {
        MadeUp loud = MadeUp.Of(new IqScenario { Kind = SignalKind.None, SampleRate = 1e6, Seconds = 0.5, Rms = 0.6, Format = SampleFormat.Ci8 });
        MadeUp faint = MadeUp.Of(new IqScenario { Kind = SignalKind.None, SampleRate = 1e6, Seconds = 0.2, Rms = 0.008, Format = SampleFormat.Cu8 });

        Assert.Equal([false, false, true, true, true], loud.Windows.Select(w => w.Warnings.HasFlag(MeterWarnings.Overload)));
        Assert.All(loud.Windows, w => Assert.InRange(w.ClipShare, 0.09, 0.11));
        Assert.All(faint.Windows, w => Assert.True(w.Warnings.HasFlag(MeterWarnings.GainTooLow)));
    }

    private sealed class Deaf : IMeterSink
    {
        public int Windows { get; private set; }

        public void Window(in MeterReading reading) => Windows++;

        public void Frame(FrameEvent frame)
        {
            // Not asked for.
        }

        public void Bits(ReadOnlySpan<byte> bits)
        {
            // Not asked for.
        }
    }
}
