using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Tests.Dsp.Qpsk;

public sealed class DecodingTests
{
    public static TheoryData<QpskSending, double, double> Signals => new()
    {
        { QpskSending.Punctured with { QuarterTurns = 1 }, 5.5, 2.5 },
        { QpskSending.Plain with { Exchanged = true, Dual = false }, 2.5, 0.0 },
    };

    // The limits lie 1 to 1.5 dB above and 1.5 dB below the threshold of the concatenated code as simulated, 4.3 and 1.5 dB (own, 2 s each).
    [Theory]
    [MemberData(nameof(Signals))]
    public void Frames_are_received_above_the_threshold_of_the_code_and_lost_below(QpskSending sending, double above, double below)
    {
        var signal = new SyntheticQpsk(sending, 4e6, SpectrumTemplate.QpskRate, 9_000.0, -12.0, seed: 21);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.15, above);
        Assert.InRange(signal.Frames.Count, 30, 70);
        Assert.All(signal.Frames, frame => Assert.True(frame.Received));
        Assert.All(signal.Frames, frame => Assert.InRange(signal.StartError(frame), 0.0, 0.3));
        double changed = signal.Seconds;
        signal.Play(frames, 0.1, below);
        Assert.True(frames.Locked);
        Assert.All(signal.Frames.Where(frame => frame.StartSample / 4e6 > changed + 0.002), frame => Assert.False(frame.Received));
    }

    [Fact]
    public void The_octets_of_a_received_frame_are_those_that_were_sent()
    {
        var signal = new SyntheticQpsk(QpskSending.Plain, 4e6, SpectrumTemplate.QpskRate, 9_000.0, -12.0, seed: 22);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.1, 9.0);
        Assert.NotEmpty(signal.Decoded);
        var check = new Codeblock();

        // The decoder starts with the first: it cannot know the level before it.
        Assert.All(signal.Decoded.Skip(1), octets =>
        {
            Assert.Equal([0x1A, 0xCF, 0xFC, 0x1D], octets[..4]);
            Assert.Equal(0, check.CountErrors(octets.AsSpan(4), dual: true));
        });
        Assert.Equal(signal.Decoded.Count, signal.Decoded.Select(Convert.ToHexString).Distinct().Count());
    }

    [Fact]
    public void Without_decoding_a_marker_is_enough()
    {
        var signal = new SyntheticQpsk(QpskSending.Punctured, 4e6, SpectrumTemplate.QpskRate, 9_000.0, -12.0, seed: 23);
        var frames = new QpskFrameLock(4e6) { Decoding = false };
        signal.Play(frames, 0.1, 3.0);
        Assert.InRange(signal.Frames.Count(frame => frame.Received), 20, 45);
        Assert.Empty(signal.Decoded);
    }

    [Fact]
    public void Switching_the_decoder_off_and_on_loses_and_doubles_no_frame()
    {
        var signal = new SyntheticQpsk(QpskSending.Punctured, 4e6, SpectrumTemplate.QpskRate, 9_000.0, -12.0, seed: 24);
        var frames = new QpskFrameLock(4e6);
        signal.Play(frames, 0.1, 9.0);
        frames.Decoding = false;
        signal.Play(frames, 0.05, 9.0);
        frames.Decoding = true;
        signal.Play(frames, 0.05, 9.0);
        double[] starts = [.. signal.Frames.Select(frame => frame.StartSample)];
        double length = (starts[^1] - starts[0]) / (starts.Length - 1);
        Assert.All(signal.Frames, frame => Assert.True(frame.Received));
        Assert.All(starts.Zip(starts.Skip(1), (a, b) => b - a), step => Assert.InRange(step, length - 3.0, length + 3.0));
    }
}
