using System.Buffers.Binary;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>Components of full scale 1 to bytes; the other way round than <see cref="SampleConverter"/>.</summary>
public static class SampleWriter
{
    /// <summary>Writes samples, interleaved; values beyond the rails are clipped, halves are rounded away from zero.</summary>
    /// <param name="format">How they stand in bytes.</param>
    /// <param name="i">In-phase.</param>
    /// <param name="q">Quadrature.</param>
    /// <param name="to">Written.</param>
    public static void Write(SampleFormat format, ReadOnlySpan<float> i, ReadOnlySpan<float> q, Span<byte> to)
    {
        int size = format.BytesPerSample() / 2;
        for (int k = 0; k < i.Length; k++)
        {
            One(format, i[k], to[(2 * k * size)..]);
            One(format, q[k], to[(((2 * k) + 1) * size)..]);
        }
    }

    private static void One(SampleFormat format, float value, Span<byte> to)
    {
        switch (format)
        {
            case SampleFormat.Cu8:
                to[0] = (byte)Steps((value * 127.5) + 127.5, 0, 255);
                break;
            case SampleFormat.Ci8:
                to[0] = (byte)(sbyte)Steps(value * 128.0, -128, 127);
                break;
            case SampleFormat.Ci16Le:
                BinaryPrimitives.WriteInt16LittleEndian(to, (short)Steps(value * 32768.0, -32768, 32767));
                break;
            case SampleFormat.Ci16Be:
                BinaryPrimitives.WriteInt16BigEndian(to, (short)Steps(value * 32768.0, -32768, 32767));
                break;
            case SampleFormat.Ci24Le:
                int steps = (int)Steps(value * 8388608.0, -8388608, 8388607);
                (to[0], to[1], to[2]) = ((byte)steps, (byte)(steps >> 8), (byte)(steps >> 16));
                break;
            case SampleFormat.Ci32Le:
                BinaryPrimitives.WriteInt32LittleEndian(to, (int)Steps(value * 2147483648.0, int.MinValue, int.MaxValue));
                break;
            case SampleFormat.Cf32Be:
                BinaryPrimitives.WriteSingleBigEndian(to, value);
                break;
            default:
                BinaryPrimitives.WriteSingleLittleEndian(to, value);
                break;
        }
    }

    private static double Steps(double value, double least, double most) => Math.Clamp(Math.Round(value, MidpointRounding.AwayFromZero), least, most);
}
