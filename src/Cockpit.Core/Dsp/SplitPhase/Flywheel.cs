using System.Numerics;

namespace Cockpit.Core.Dsp.SplitPhase;

/// <summary>Bits to frames: finds the sync word, expects it a frame later, and goes on counting where it does not come.</summary>
/// <remarks>
/// At most three wrong bits of sixty lock at once: random bits do that once in a thousand hours. Up to seven must be followed by another
/// sync word a frame later. Locked, a sync word is looked for within two bits of its place, and four that do not come end the lock; the
/// frames go on being counted as lost until the signal comes back or half a minute has passed.
/// </remarks>
internal sealed class Flywheel : IBitSink
{
    private const int AtOnce = 3;
    private const int WithProof = 7;
    private const int AsProof = 14;
    private const int Expected = 12;
    private const int Slack = 2;
    private const int MostMisses = 4;
    private const int MostLost = 180;
    private const int RingBits = 1 << 18;
    private const int Parts = 16;
    private const float LeastPartRatio = 0.7f;
    private const ulong Mask = (1UL << MinorFrame.SyncBits) - 1;

    private readonly byte[] _ring = new byte[RingBits / 8];
    private readonly byte[] _packed = new byte[(MinorFrame.Bits + 7) / 8];
    private readonly IFrameSink _none = new Nobody();
    private IFrameSink _sink;
    private ulong _register;
    private long _bit = -1;
    private long _since;
    private long _due = -1;
    private long _proofDue = -1;
    private bool _proofInverted;
    private int _bestErrors;
    private long _bestBit;
    private bool _bestInverted;
    private double _bestStart;
    private Frame _frame;
    private bool _open;
    private int _misses;
    private float _partAlong;
    private float _partAcross;
    private int _partBits;
    private bool _faded;

    public Flywheel() => _sink = _none;

    /// <inheritdoc/>
    public bool Framed { get; private set; }

    /// <summary>Whether frames are counted, locked or not.</summary>
    public bool Turning => _open;

    private bool AtProof => !Framed && _proofDue >= 0 && Math.Abs(_bit - _proofDue) <= Slack;

    /// <summary>Start of the last frame whose sync word was seen, in samples; null where there is none.</summary>
    public double? LastSyncStart { get; private set; }

    /// <summary>Samples of a bit when that was seen.</summary>
    public double LastBitSamples { get; private set; }

    /// <summary>Who is told from now on.</summary>
    public void Tell(IFrameSink sink) => _sink = sink;

    /// <summary>Nobody is told any more.</summary>
    public void TellNobody() => _sink = _none;

    /// <summary>The bits that follow are not the successors of those before.</summary>
    public void Break()
    {
        _register = 0;
        _since = 0;
        _proofDue = -1;
    }

    /// <summary>Forgets everything.</summary>
    public void Reset()
    {
        Break();
        Framed = false;
        _open = false;
        _misses = 0;
        _due = -1;
        LastSyncStart = null;
    }

    /// <summary>Time passes without bits: what should have begun until then is lost.</summary>
    /// <param name="sample">Until when.</param>
    public void PassTo(double sample)
    {
        Break();
        double length = MinorFrame.Bits * LastBitSamples;
        while (_open && sample > _frame.Start + length + (4 * Slack * LastBitSamples))
        {
            double next = _frame.Start + length;
            Close(received: false);
            Miss(next);
        }
    }

    /// <inheritdoc/>
    public void Bit(int bit, double startSample, double bitSamples, float along, float across)
    {
        _bit++;
        _since++;
        _register = ((_register << 1) | (uint)bit) & Mask;
        int place = (int)(_bit & (RingBits - 1));
        byte mask = (byte)(0x80 >> (place & 7));
        _ring[place >> 3] = bit != 0 ? (byte)(_ring[place >> 3] | mask) : (byte)(_ring[place >> 3] & ~mask);
        Weigh(along, across);
        if (_since < MinorFrame.SyncBits)
        {
            return;
        }

        int errors = BitOperations.PopCount(_register ^ MinorFrame.Sync);
        bool inverted = errors > MinorFrame.SyncBits / 2;
        errors = inverted ? MinorFrame.SyncBits - errors : errors;
        double start = startSample - ((MinorFrame.SyncBits - 1) * bitSamples);
        if (_open && _due >= 0 && _bit >= _due - Slack)
        {
            AtDue(errors, inverted, start, bitSamples);
        }
        else if (errors <= (AtProof ? AsProof : WithProof))
        {
            Elsewhere(errors, inverted, start, bitSamples);
        }
    }

    private void AtDue(int errors, bool inverted, double start, double bitSamples)
    {
        if (_bit == _due - Slack || errors < _bestErrors)
        {
            (_bestErrors, _bestBit, _bestInverted, _bestStart) = (errors, _bit, inverted, start);
        }

        if (_bit < _due + Slack)
        {
            return;
        }

        if (_bestErrors <= Expected)
        {
            Close(_frame.Synced && !_faded);
            Open(_bestBit, _bestStart, _bestErrors, _bestInverted, bitSamples);
        }
        else
        {
            double next = _frame.Start + (MinorFrame.Bits * bitSamples);
            Close(_frame.Synced && !_faded && _misses == 0);
            _due += MinorFrame.Bits;
            Miss(next);
        }
    }

    private void Elsewhere(int errors, bool inverted, double start, double bitSamples)
    {
        if (errors <= AtOnce || (AtProof && inverted == _proofInverted))
        {
            CatchUp(start, bitSamples);
            Open(_bit, start, errors, inverted, bitSamples);
        }
        else if (!Framed && errors <= WithProof)
        {
            _proofDue = _bit + MinorFrame.Bits;
            _proofInverted = inverted;
        }
    }

    // The frames between the last one known and one that was found anew.
    private void CatchUp(double start, double bitSamples)
    {
        if (!_open)
        {
            return;
        }

        double length = MinorFrame.Bits * bitSamples;
        int between = (int)Math.Min(Math.Round((start - _frame.Start) / length), MostLost);
        for (int k = 0; k < between; k++)
        {
            double next = _frame.Start + length;
            Close(received: false);
            _frame = new Frame(0, next, -1, false, Synced: false);
            _open = true;
        }
    }

    private void Open(long lastSyncBit, double start, int errors, bool inverted, double bitSamples)
    {
        _frame = new Frame(lastSyncBit - MinorFrame.SyncBits + 1, start, errors, inverted, Synced: true);
        _open = true;
        Framed = true;
        _misses = 0;
        _due = lastSyncBit + MinorFrame.Bits;
        _proofDue = -1;
        LastSyncStart = start;
        LastBitSamples = bitSamples;
        StartWeighing();
    }

    private void Miss(double start)
    {
        _misses++;
        Framed &= _misses < MostMisses;
        _open = _misses < MostLost;
        _frame = new Frame(0, start, -1, false, Synced: false);
        StartWeighing();
    }

    private void Close(bool received)
    {
        _open = false;
        _sink.Frame(new FrameEvent(_frame.Start, received, _frame.Errors));
        if (received)
        {
            Pack();
            _sink.Bits(_packed);
        }
    }

    private void Pack()
    {
        byte turn = _frame.Inverted ? (byte)0xFF : (byte)0;
        int shift = (int)(_frame.FirstBit & 7);
        for (int k = 0; k < _packed.Length; k++)
        {
            int from = (int)(((_frame.FirstBit >> 3) + k) & ((RingBits / 8) - 1));
            int two = (_ring[from] << 8) | _ring[(from + 1) & ((RingBits / 8) - 1)];
            _packed[k] = (byte)((byte)(two >> (8 - shift)) ^ turn);
        }
    }

    private void StartWeighing()
    {
        _partAlong = _partAcross = 0;
        _partBits = 0;
        _faded = false;
    }

    // A sixteenth of a frame at a time: a fade in its middle spoils the line though both its ends are whole.
    private void Weigh(float along, float across)
    {
        _partAlong += along;
        _partAcross += across;
        if (++_partBits < MinorFrame.Bits / Parts)
        {
            return;
        }

        _faded |= _partAlong - _partAcross < 2 * LeastPartRatio * _partAcross;
        _partAlong = _partAcross = 0;
        _partBits = 0;
    }

    private readonly record struct Frame(long FirstBit, double Start, int Errors, bool Inverted, bool Synced);

    private sealed class Nobody : IFrameSink
    {
        public void Frame(FrameEvent frame)
        {
            // Nobody asked.
        }

        public void Bits(ReadOnlySpan<byte> bits)
        {
            // Nobody asked.
        }
    }
}
