namespace Cockpit.Core.Dsp;

/// <summary>What the meter found in the same block, for the bit receiver that works on it next.</summary>
/// <param name="Kind">What is in the band in this block.</param>
/// <param name="OffsetHz">Its carrier; null while it is not known.</param>
/// <param name="SymbolRate">Its nominal symbols per second; 0 where there are none.</param>
/// <param name="SnrDb">Es/N0 of the whole wave; null where there is none.</param>
public readonly record struct LockHint(SignalKind Kind, double? OffsetHz, double SymbolRate, double? SnrDb);

/// <summary>What happened to one frame (one line of the picture, one transfer frame).</summary>
/// <param name="StartSample">First edge of its first sync bit or symbol, fractional; predicted where the frame was lost.</param>
/// <param name="Received">Whether it was received; false = lost.</param>
/// <param name="SyncErrors">Wrong bits of its sync word or marker; -1 where they are not counted.</param>
public readonly record struct FrameEvent(double StartSample, bool Received, int SyncErrors);

/// <summary>Takes what a frame lock finds.</summary>
public interface IFrameSink
{
    /// <summary>A frame was received or lost; in the order of the samples, told once, at latest a frame after its end.</summary>
    void Frame(FrameEvent frame);

    /// <summary>The bits of a received frame, in order, most significant first; told right after its <see cref="Frame"/>.</summary>
    /// <param name="bits">Packed; valid during the call only. Empty where the lock does not decide bits.</param>
    void Bits(ReadOnlySpan<byte> bits);
}

/// <summary>Finds and keeps the frame of one kind of signal; streaming, allocates nothing for a block.</summary>
public interface IFrameLock
{
    /// <summary>The kind of signal it is for; the meter calls it for blocks of this kind, and for all while it is <see cref="Holding"/>.</summary>
    SignalKind Kind { get; }

    /// <summary>Whether it is locked at the end of the last block.</summary>
    bool Locked { get; }

    /// <summary>Whether it wants blocks of any kind, to go on counting frames that are lost.</summary>
    bool Holding => Locked;

    /// <summary>The carrier by its own loop at the end of the last block, hertz; null while it is not locked.</summary>
    double? OffsetHz { get; }

    /// <summary>Takes the next block: 100 ms, following on the last one without a gap.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="hint">What the meter measured in them.</param>
    /// <param name="sink">Told what is found.</param>
    void Take(in ComplexBlock block, in LockHint hint, IFrameSink sink);

    /// <summary>Forgets everything but its settings: samples are missing before the next block.</summary>
    void Reset();
}
