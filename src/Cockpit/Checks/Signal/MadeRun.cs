using System.Collections.Immutable;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Checks.Signal;

/// <summary>Samples that were made and measured.</summary>
/// <param name="Truth">What is true of them.</param>
/// <param name="Heard">What the meter said.</param>
internal sealed record MadeRun(IqTruth Truth, RecordingSink Heard)
{
    /// <summary>Makes and measures.</summary>
    /// <param name="scenario">The samples.</param>
    /// <param name="locks">Whether the frame locks listen too.</param>
    public static MadeRun Of(IqScenario scenario, bool locks)
    {
        ImmutableArray<IFrameLock> listening = locks ? FrameLocks.For(scenario.SampleRate) : [];
        IqGenerator generator = new(scenario);
        SignalMeter meter = new(scenario.SampleRate, scenario.Format, listening);
        RecordingSink sink = new();
        float[] i = new float[1 << 16], q = new float[1 << 16];
        byte[] bytes = new byte[i.Length * scenario.Format.BytesPerSample()];
        while (generator.Next(i, q) is > 0 and int count)
        {
            SampleWriter.Write(scenario.Format, i.AsSpan(0, count), q.AsSpan(0, count), bytes);
            meter.Take(bytes.AsSpan(0, count * scenario.Format.BytesPerSample()), sink);
        }

        meter.Finish(sink);
        return new MadeRun(generator.Truth, sink);
    }
}
