using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Frames;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Tests.Dsp;

/// <summary>A made-up recording and what the meter said of it.</summary>
public sealed class MadeUp : IMeterSink
{
    private MadeUp(IqTruth truth) => Truth = truth;

    public IqTruth Truth { get; }

    public List<MeterReading> Windows { get; } = [];

    public List<FrameEvent> Frames { get; } = [];

    public List<byte[]> FrameBits { get; } = [];

    public double[] SnrErrors => [.. Windows.Zip(Truth.Windows).Where(p => !p.Second.Mixed && p.Second.SnrDb is not null).Select(p => (p.First.SnrDb ?? -99) - p.Second.SnrDb!.Value)];

    public static MadeUp Of(IqScenario scenario, bool locks = true)
    {
        (byte[] bytes, IqTruth truth) = Bytes(scenario);
        MadeUp made = new(truth);
        SignalMeter meter = new(scenario.SampleRate, scenario.Format, locks ? FrameLocks.For(scenario.SampleRate) : []);
        meter.Take(bytes, made);
        return made;
    }

    public static (byte[] Bytes, IqTruth Truth) Bytes(IqScenario scenario)
    {
        IqGenerator generator = new(scenario);
        float[] i = new float[generator.TotalSamples], q = new float[generator.TotalSamples];
        generator.Next(i, q);
        byte[] bytes = new byte[i.Length * scenario.Format.BytesPerSample()];
        SampleWriter.Write(scenario.Format, i, q, bytes);
        return (bytes, generator.Truth);
    }

    public void Window(in MeterReading reading) => Windows.Add(reading);

    public void Frame(FrameEvent frame) => Frames.Add(frame);

    public void Bits(ReadOnlySpan<byte> bits) => FrameBits.Add(bits.ToArray());
}
