using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp;

/// <summary>Bytes to components of full scale 1.</summary>
public static class SampleConverter
{
    private const float ByteScale = 1f / 127.5f;
    private const float SignedByteScale = 1f / 128f;
    private const float ShortScale = 1f / 32768f;

    /// <summary>Converts whole samples.</summary>
    /// <param name="format">How they stand in the bytes.</param>
    /// <param name="bytes">As many bytes as the samples take, or more.</param>
    /// <param name="i">In-phase, written; its length says how many samples.</param>
    /// <param name="q">Quadrature, written; as long as <paramref name="i"/>.</param>
    /// <remarks>Floating-point values that are no number, or beyond 1e6, become 0, so that one bad sample does not spoil a block.</remarks>
    public static void Convert(SampleFormat format, ReadOnlySpan<byte> bytes, Span<float> i, Span<float> q)
    {
        if (q.Length != i.Length || bytes.Length < (long)i.Length * format.BytesPerSample())
        {
            throw new ArgumentException("the bytes do not hold so many samples", nameof(bytes));
        }

        switch (format)
        {
            case SampleFormat.Cu8:
                FromUnsignedBytes(MemoryMarshal.Cast<byte, ushort>(bytes), i, q);
                break;
            case SampleFormat.Ci8:
                FromSignedBytes(MemoryMarshal.Cast<byte, short>(bytes), i, q);
                break;
            case SampleFormat.Ci16Le when BitConverter.IsLittleEndian:
                FromShorts(MemoryMarshal.Cast<byte, int>(bytes), i, q);
                break;
            default:
                for (int k = 0; k < i.Length; k++)
                {
                    int size = format.BytesPerSample() / 2;
                    i[k] = One(format, bytes.Slice(2 * k * size, size));
                    q[k] = One(format, bytes.Slice(((2 * k) + 1) * size, size));
                }

                break;
        }
    }

    private static float One(SampleFormat format, ReadOnlySpan<byte> bytes) => format switch
    {
        SampleFormat.Ci16Le => BinaryPrimitives.ReadInt16LittleEndian(bytes) * ShortScale,
        SampleFormat.Ci16Be => BinaryPrimitives.ReadInt16BigEndian(bytes) * ShortScale,
        SampleFormat.Ci24Le => (((sbyte)bytes[2] << 16) | (bytes[1] << 8) | bytes[0]) * (1f / 8388608f),
        SampleFormat.Ci32Le => BinaryPrimitives.ReadInt32LittleEndian(bytes) * (1f / 2147483648f),
        SampleFormat.Cf32Le => Sane(BinaryPrimitives.ReadSingleLittleEndian(bytes)),
        _ => Sane(BinaryPrimitives.ReadSingleBigEndian(bytes)),
    };

    private static float Sane(float value) => Math.Abs(value) <= 1e6f ? value : 0f;

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FromUnsignedBytes(ReadOnlySpan<ushort> pairs, Span<float> i, Span<float> q)
    {
        int k = 0;
        for (; k + Vector128<ushort>.Count <= i.Length; k += Vector128<ushort>.Count)
        {
            Vector128<ushort> pair = Vector128.LoadUnsafe(ref MemoryMarshal.GetReference(pairs), (nuint)k);
            Store((pair & Vector128.Create((ushort)0xFF)).AsInt16(), ByteScale, -1f, i[k..]);
            Store((pair >>> 8).AsInt16(), ByteScale, -1f, q[k..]);
        }

        for (; k < i.Length; k++)
        {
            i[k] = ((pairs[k] & 0xFF) * ByteScale) - 1f;
            q[k] = ((pairs[k] >> 8) * ByteScale) - 1f;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FromSignedBytes(ReadOnlySpan<short> pairs, Span<float> i, Span<float> q)
    {
        int k = 0;
        for (; k + Vector128<short>.Count <= i.Length; k += Vector128<short>.Count)
        {
            Vector128<short> pair = Vector128.LoadUnsafe(ref MemoryMarshal.GetReference(pairs), (nuint)k);
            Store((pair << 8) >> 8, SignedByteScale, 0f, i[k..]);
            Store(pair >> 8, SignedByteScale, 0f, q[k..]);
        }

        for (; k < i.Length; k++)
        {
            i[k] = (sbyte)pairs[k] * SignedByteScale;
            q[k] = (pairs[k] >> 8) * SignedByteScale;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FromShorts(ReadOnlySpan<int> pairs, Span<float> i, Span<float> q)
    {
        int k = 0;
        for (; k + Vector256<int>.Count <= i.Length; k += Vector256<int>.Count)
        {
            Vector256<int> pair = Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(pairs), (nuint)k);
            (Vector256.ConvertToSingle((pair << 16) >> 16) * ShortScale).CopyTo(i[k..]);
            (Vector256.ConvertToSingle(pair >> 16) * ShortScale).CopyTo(q[k..]);
        }

        for (; k < i.Length; k++)
        {
            i[k] = (short)pairs[k] * ShortScale;
            q[k] = (pairs[k] >> 16) * ShortScale;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector128<short> values, float scale, float offset, Span<float> to)
    {
        (Vector128<int> lower, Vector128<int> upper) = Vector128.Widen(values);
        ((Vector128.ConvertToSingle(lower) * scale) + Vector128.Create(offset)).CopyTo(to);
        ((Vector128.ConvertToSingle(upper) * scale) + Vector128.Create(offset)).CopyTo(to[Vector128<int>.Count..]);
    }
}
