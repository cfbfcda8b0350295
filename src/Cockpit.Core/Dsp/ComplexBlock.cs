namespace Cockpit.Core.Dsp;

/// <summary>A stretch of complex baseband samples; a view on memory of somebody else, valid during the call only.</summary>
/// <remarks>
/// The convention of everything in this folder:
/// <list type="bullet">
/// <item>Samples are two float spans of the same length, in-phase and quadrature, full scale 1 for each component.</item>
/// <item>Samples are counted from 0 at the first of the recording, through gaps of the processing; positions may be fractional.</item>
/// <item>Frequencies are hertz from the centre of the recording at its nominal sample rate, positive = above the centre.</item>
/// <item>A stage takes blocks in order and keeps what it needs; it allocates when it is made and never for a block.</item>
/// <item>What a stage finds it hands to a sink that the caller gives (<see cref="IFrameSink"/>), in the order of the samples.</item>
/// </list>
/// </remarks>
public readonly ref struct ComplexBlock
{
    /// <summary>A view on samples.</summary>
    /// <param name="firstSample">Number of the first sample.</param>
    /// <param name="i">In-phase.</param>
    /// <param name="q">Quadrature; as long as <paramref name="i"/>.</param>
    public ComplexBlock(long firstSample, ReadOnlySpan<float> i, ReadOnlySpan<float> q)
    {
        if (q.Length != i.Length)
        {
            throw new ArgumentException("as many quadrature as in-phase components are needed", nameof(q));
        }

        FirstSample = firstSample;
        I = i;
        Q = q;
    }

    /// <summary>Number of the first sample, counted from 0 at the first of the recording.</summary>
    public long FirstSample { get; }

    /// <summary>In-phase components.</summary>
    public ReadOnlySpan<float> I { get; }

    /// <summary>Quadrature components.</summary>
    public ReadOnlySpan<float> Q { get; }

    /// <summary>Samples.</summary>
    public int Length => I.Length;

    /// <summary>A part of it.</summary>
    public ComplexBlock Slice(int start, int length) => new(FirstSample + start, I.Slice(start, length), Q.Slice(start, length));
}
