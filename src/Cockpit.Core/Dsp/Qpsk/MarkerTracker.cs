using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>One frame as the tracker saw it.</summary>
/// <param name="Symbol">Number of the symbol with its first coded bit.</param>
/// <param name="InCycle">Number of the frame in its cycle.</param>
/// <param name="Found">Whether its marker was there.</param>
/// <param name="WrongBits">Fixed coded bits of the marker that were wrong.</param>
/// <param name="Turns">Phase of the carrier at the marker, turns.</param>
internal readonly record struct TrackedFrame(long Symbol, int InCycle, bool Found, int WrongBits, double Turns);

/// <summary>Follows the marker from frame to frame: confirms a find, runs on through misses, tells when it is lost.</summary>
internal sealed class MarkerTracker
{
    private const int Slack = 2;
    private const int ConfirmEarly = 4;
    private const int ConfirmLate = 12;
    private const int Window = 32;

    // All in units of the mean in noise, where the values are exponential. Early: e^-12.8 in noise; late: 1 in 1000; kept: 1 in 4000 a frame.
    private const float EarlyLevel = 6.0f;
    private const float LateLevel = 2.2f;
    private const float KeptLevel = 1.9f;
    private const float FoundLevel = 6.0f;
    private const float SlipLevel = 10.0f;
    private const float SlipLeft = 3.0f;

    private readonly MarkerTemplate[] _templates = new MarkerTemplate[3];
    private readonly float[] _window = new float[Window];
    private MarkerVariant _variant;
    private long _cycle;
    private int _frame;
    private int _seen;
    private int _slip;
    private int _kept = Window;

    /// <summary>Whether there is a find to follow, confirmed or not.</summary>
    public bool Active { get; private set; }

    /// <summary>Whether it is confirmed.</summary>
    public bool Locked { get; private set; }

    /// <summary>What is followed.</summary>
    public MarkerVariant Variant => _variant;

    /// <summary>How often the symbols were found to have slipped since the start.</summary>
    public int Slips { get; private set; }

    /// <summary>Number of the symbol with the next frame's first coded bit.</summary>
    public long NextSymbol => _cycle + MarkerTemplate.StartOf(_variant.Sent.Rate, _frame);

    /// <summary>Lets go.</summary>
    public void Reset() => Active = Locked = false;

    /// <summary>Starts to follow a find.</summary>
    /// <param name="variant">What was found.</param>
    /// <param name="position">Symbol, modulo the cycle, at which a cycle starts.</param>
    /// <param name="block">The last block that was searched.</param>
    public void Start(MarkerVariant variant, int position, in SymbolBlock block)
    {
        _variant = variant;
        CodeRate rate = variant.Sent.Rate;
        for (int frame = 0; frame < MarkerTemplate.FramesInCycle(rate); frame++)
        {
            _templates[frame] = MarkerTemplate.Of(rate, variant.Sent.Differential, frame);
        }

        int cycle = MarkerTemplate.SymbolsInCycle(rate);
        long after = block.First + SymbolBlock.Length;
        _cycle = after - (after % cycle) + position;
        _cycle += _cycle < after ? cycle : 0;
        (_frame, _seen, _slip) = (0, 0, 0);
        _kept = Window;
        Active = true;
        Locked = false;
    }

    /// <summary>Goes on with symbols that are numbered anew and start earlier; the lock is kept until long after the next frame known.</summary>
    /// <param name="symbol">New number of the symbol with the next frame's first coded bit.</param>
    public void Resume(long symbol)
    {
        CodeRate rate = _variant.Sent.Rate;
        int frames = MarkerTemplate.FramesInCycle(rate);
        _cycle = symbol - MarkerTemplate.StartOf(rate, _frame);
        _kept = Window;
        while (_cycle + MarkerTemplate.StartOf(rate, _frame) > 0)
        {
            _kept++;
            _cycle -= _frame == 0 ? MarkerTemplate.SymbolsInCycle(rate) : 0;
            _frame = (_frame == 0 ? frames : _frame) - 1;
        }

        Advance();
        (_seen, _slip) = (0, 0);
    }

    /// <summary>The next frame whose marker lies in a block.</summary>
    /// <param name="block">Symbols; call until null, then with the next block.</param>
    /// <returns>The frame; null when it is not there yet, or the tracker let go.</returns>
    public TrackedFrame? Next(in SymbolBlock block)
    {
        if (!Active)
        {
            return null;
        }

        CodeRate rate = _variant.Sent.Rate;
        MarkerTemplate template = _templates[_frame];
        long symbol = NextSymbol;
        int at = (int)(symbol - block.Start);
        if (at + template.Length + Slack >= SymbolBlock.Margin + SymbolBlock.Length)
        {
            return null;
        }

        float score = Score(block, template, at, out double re, out double im);
        var frame = new TrackedFrame(symbol, _frame, score >= FoundLevel, WrongBits(block, template, at, re, im), Math.Atan2(im, re) / Math.Tau);
        Watch(block, template, at, score);
        Advance();
        return frame;
    }

    private void Advance()
    {
        CodeRate rate = _variant.Sent.Rate;
        _frame++;
        if (_frame == MarkerTemplate.FramesInCycle(rate))
        {
            _frame = 0;
            _cycle += MarkerTemplate.SymbolsInCycle(rate);
        }
    }

    // The square of the correlation over its mean in noise of the same power.
    private float Score(in SymbolBlock block, MarkerTemplate template, int at, out double re, out double im)
    {
        Correlate(block, template, at, out re, out im);
        float power = 1e-20f;
        for (int k = at; k < at + template.Length; k++)
        {
            power += (block.I[k] * block.I[k]) + (block.Q[k] * block.Q[k]);
        }

        return (float)((re * re) + (im * im)) * template.Length / (power * template.Bits.Length);
    }

    private void Correlate(in SymbolBlock block, MarkerTemplate template, int at, out double re, out double im)
    {
        (float sumRe, float sumIm) = (0.0f, 0.0f);
        foreach (KnownBit bit in template.Bits)
        {
            float sign = SignOf(bit);
            (float x, float y) = (block.I[at + bit.Offset], MirrorSign * block.Q[at + bit.Offset]);
            sumRe += sign * (bit.Quadrature ? y : x);
            sumIm += sign * (bit.Quadrature ? -x : y);
        }

        (re, im) = (sumRe, sumIm);
    }

    private int WrongBits(in SymbolBlock block, MarkerTemplate template, int at, double re, double im)
    {
        int wrong = 0;
        foreach (KnownBit bit in template.Bits)
        {
            (double x, double y) = (block.I[at + bit.Offset], MirrorSign * block.Q[at + bit.Offset]);
            double component = bit.Quadrature ? (y * re) - (x * im) : (x * re) + (y * im);
            wrong += component * SignOf(bit) < 0.0 ? 1 : 0;
        }

        return wrong;
    }

    private float SignOf(KnownBit bit) => bit.Second && _variant.Sent.InvertSecond ? -bit.Sign : bit.Sign;

    private float MirrorSign => _variant.Mirrored ? -1.0f : 1.0f;

    private void Watch(in SymbolBlock block, MarkerTemplate template, int at, float score)
    {
        _window[_seen % Window] = score;
        _seen++;
        if (!Locked)
        {
            Locked = _seen switch
            {
                ConfirmEarly => Mean(ConfirmEarly) >= EarlyLevel,
                ConfirmLate => Mean(ConfirmLate) >= LateLevel,
                _ => false,
            };
            Active = Locked || _seen < ConfirmLate;
            return;
        }

        Active = Locked = _seen < _kept || Mean(Window) >= KeptLevel;
        FollowSlip(block, template, at, score);
    }

    private float Mean(int count)
    {
        float sum = 0.0f;
        for (int k = 1; k <= count; k++)
        {
            sum += _window[(_seen - k) % Window];
        }

        return sum / count;
    }

    // After a fade the clock may have gained or lost a symbol; two markers in a row at the same wrong place tell it.
    private void FollowSlip(in SymbolBlock block, MarkerTemplate template, int at, float score)
    {
        int slip = 0;
        float best = SlipLevel;
        for (int d = -Slack; score < SlipLeft && d <= Slack; d++)
        {
            float there = d == 0 ? 0.0f : Score(block, template, at + d, out _, out _);
            (best, slip) = there > best ? (there, d) : (best, slip);
        }

        if (slip != 0 && slip == _slip)
        {
            _cycle += slip;
            slip = 0;
            Slips++;
        }

        _slip = slip;
    }
}
