using System.Collections.Immutable;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Dsp.SplitPhase;

namespace Cockpit.Core.Dsp.Frames;

/// <summary>The frame locks of every kind of signal.</summary>
public static class FrameLocks
{
    /// <summary>One of each kind that a sample rate has room for.</summary>
    /// <param name="sampleRate">Samples a second.</param>
    public static ImmutableArray<IFrameLock> For(double sampleRate) =>
    [
        .. SplitPhaseLock.Fits(sampleRate) ? [new SplitPhaseLock(sampleRate)] : Array.Empty<IFrameLock>(),
        .. QpskFrameLock.Fits(sampleRate) ? [new QpskFrameLock(sampleRate)] : Array.Empty<IFrameLock>(),
    ];
}
