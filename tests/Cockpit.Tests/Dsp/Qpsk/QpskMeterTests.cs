using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Tests.Dsp.Qpsk;

public sealed class QpskMeterTests
{
    // The fade begins and ends within a window, so that the frames of both of these are counted too.
    [Fact]
    public void The_meter_counts_every_frame_that_was_sent_and_those_of_a_gap_as_lost()
    {
        MadeUp made = MadeUp.Of(new IqScenario
        {
            Kind = SignalKind.Qpsk,
            Qpsk = QpskSending.Punctured,
            SampleRate = 4e6,
            Seconds = 0.7,
            SnrDb = [new(0, 9)],
            DopplerHz = [new(0, -28_000), new(1, -28_300)],
            ClockPpm = -15,
            Dropouts = [new Dropout(0.25, 0.45)],
            Format = SampleFormat.Ci8,
        });
        TrueFrame[] whole = [.. made.Truth.Frames.Where(f => f.LeastSnrDb > 8 && f.EndSample < 0.695 * 4e6)];
        double[] received = [.. made.Frames.Where(f => f.Received).Select(f => f.StartSample)];
        Assert.All(received, start => Assert.Contains(made.Truth.Frames, f => Math.Abs(f.StartSample - start) < 0.3 && f.LeastSnrDb > 8));
        Assert.InRange(whole.Count(f => received.Any(start => Math.Abs(start - f.StartSample) < 0.3)), whole.Length - 2, whole.Length);

        // 0.2 s are 85 frames, and one more is cut at each end.
        Assert.InRange(made.Frames.Count(f => !f.Received), 84, 90);
        Assert.False(made.Windows[3].Locked);
        Assert.True(made.Windows[^1].Locked);
        Assert.Equal(received.Length, made.Windows[^1].LinesReceived);
    }
}
