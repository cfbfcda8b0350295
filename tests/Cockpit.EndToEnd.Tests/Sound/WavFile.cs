using System.Buffers.Binary;
using System.Text;

namespace Cockpit.EndToEnd.Tests.Sound;

/// <summary>A WAV file as another program would read it: chunk by chunk, by its own header.</summary>
internal sealed record WavFile(int Rate, int Channels, int Bits, long DataBytes, float[] Samples)
{
    public int Frames => Samples.Length / Channels;

    public static WavFile Read(string path)
    {
        byte[] bytes = File.ReadAllBytes(path);
        Assert.Equal("RIFF", Encoding.ASCII.GetString(bytes, 0, 4));
        Assert.Equal("WAVE", Encoding.ASCII.GetString(bytes, 8, 4));
        Assert.True(BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(4)) <= bytes.Length - 8, "RIFF size within the file");
        (int Rate, int Channels, int Bits) format = default;
        int at = 12;
        while (at + 8 <= bytes.Length)
        {
            string id = Encoding.ASCII.GetString(bytes, at, 4);
            uint size = BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(at + 4));
            ReadOnlySpan<byte> body = bytes.AsSpan(at + 8);
            if (string.Equals(id, "fmt ", StringComparison.Ordinal))
            {
                Assert.Equal(1, BinaryPrimitives.ReadInt16LittleEndian(body));
                format = (BinaryPrimitives.ReadInt32LittleEndian(body[4..]), BinaryPrimitives.ReadInt16LittleEndian(body[2..]), BinaryPrimitives.ReadInt16LittleEndian(body[14..]));
            }
            else if (string.Equals(id, "data", StringComparison.Ordinal))
            {
                Assert.True(size <= body.Length, $"data size {size} within the {body.Length} bytes of the file");
                return new WavFile(format.Rate, format.Channels, format.Bits, size, Floats(body[..(int)size]));
            }

            at += 8 + (int)size;
        }

        throw new InvalidDataException("no data chunk");
    }

    /// <summary>One channel of a stretch.</summary>
    public float[] Channel(int channel, int fromFrame, int frames)
    {
        float[] one = new float[frames];
        for (int i = 0; i < frames; i++) { one[i] = Samples[((fromFrame + i) * Channels) + channel]; }

        return one;
    }

    /// <summary>First changed frame after each silence of at least 150 ms.</summary>
    public List<int> Onsets()
    {
        List<int> onsets = [];
        int silentFor = Rate;
        for (int i = 0; i < Frames; i++)
        {
            bool sounds = Samples[i * Channels] != 0f || Samples[(i * Channels) + 1] != 0f;
            if (sounds && silentFor > Rate * 0.15) { onsets.Add(i); }

            silentFor = sounds ? 0 : silentFor + 1;
        }

        return onsets;
    }

    private static float[] Floats(ReadOnlySpan<byte> data)
    {
        float[] samples = new float[data.Length / 2];
        for (int i = 0; i < samples.Length; i++) { samples[i] = BinaryPrimitives.ReadInt16LittleEndian(data[(2 * i)..]) / 32768f; }

        return samples;
    }
}
