using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Decided bits to frames, and each frame to a verdict: can it be decoded?</summary>
internal sealed class FrameBits
{
    private readonly Codeblock _block = new();
    private readonly byte[] _octets = new byte[SyncMarker.FrameOctets];
    private readonly IDecodedSink _sink;
    private bool _differential;
    private bool _dual = true;
    private bool _sure;
    private int _skip;
    private int _bit;
    private int _last;

    /// <summary>No frame yet.</summary>
    /// <param name="sink">Told of every frame.</param>
    public FrameBits(IDecodedSink sink) => _sink = sink;

    /// <summary>Starts: the bit after the decoder's delay is the first of a frame.</summary>
    /// <param name="differential">Whether NRZ-M was applied.</param>
    public void Start(bool differential)
    {
        _differential = differential;
        _skip = ViterbiDecoder.Depth;
        _bit = 0;
        _last = 0;
    }

    /// <summary>Takes the next bits.</summary>
    /// <param name="bits">0 or 1 each.</param>
    public void Take(ReadOnlySpan<byte> bits)
    {
        int skipped = Math.Min(_skip, bits.Length);
        _skip -= skipped;
        foreach (byte level in bits[skipped..])
        {
            int bit = _differential ? level ^ _last : level;
            _last = level;
            ref byte octet = ref _octets[_bit >> 3];
            octet = (byte)((octet << 1) | bit);
            _bit++;
            if (_bit == SyncMarker.FrameBits)
            {
                _bit = 0;
                _sink.Decoded(Decodable(_octets.AsSpan(SyncMarker.Bits / 8)), _octets);
            }
        }
    }

    // Which basis a transmitter uses does not change: once a frame was good, only its own is tried.
    private bool Decodable(ReadOnlySpan<byte> codeblock)
    {
        if (_block.CountErrors(codeblock, _dual) is not null)
        {
            _sure = true;
            return true;
        }

        if (_sure || _block.CountErrors(codeblock, !_dual) is null)
        {
            return false;
        }

        (_dual, _sure) = (!_dual, true);
        return true;
    }
}

/// <summary>Takes decoded frames.</summary>
internal interface IDecodedSink
{
    /// <summary>The next frame is decided.</summary>
    /// <param name="good">Whether every codeword can be corrected.</param>
    /// <param name="octets">Marker and codeblock before correction; valid during the call only.</param>
    void Decoded(bool good, ReadOnlySpan<byte> octets);
}
