using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Chance;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>The bits of the split-phase service, frame after frame.</summary>
/// <remarks>
/// Words 1-6 sync, word 7 a frame number from 1 to 3 and an invented address, words 8-9 the number of the frame, then chance; words 751-10 990
/// a scene where a picture is wanted; the last hundred words a pseudo-random sequence (x^10 + x^5 + x^2 + x + 1 from all ones, from memory).
/// </remarks>
/// <param name="chance">Where chance comes from.</param>
/// <param name="picture">Whether the Earth words are a scene.</param>
/// <param name="firstNumber">Number of the first frame.</param>
internal sealed class FrameSource(Xoshiro256 chance, bool picture, long firstNumber)
{
    private const int Address = 9;
    private const int TailWords = 100;

    private readonly byte[] _bits = new byte[MinorFrame.Bits];
    private int _next = MinorFrame.Bits;

    /// <summary>Number of the frame that the last bit belongs to.</summary>
    public long Number { get; private set; } = firstNumber - 1;

    /// <summary>Whether the next bit is the first of a frame.</summary>
    public bool AtStart => _next == MinorFrame.Bits || _next == 0;

    /// <summary>Begins within a frame.</summary>
    public void SkipTo(int bit)
    {
        Compose();
        _next = bit;
    }

    /// <summary>The next bit.</summary>
    public int Next()
    {
        if (_next == MinorFrame.Bits)
        {
            Compose();
            _next = 0;
        }

        return _bits[_next++];
    }

    private void Compose()
    {
        Number++;
        int at = 0;
        for (int k = MinorFrame.SyncBits - 1; k >= 0; k--)
        {
            _bits[at++] = (byte)((MinorFrame.Sync >> k) & 1);
        }

        Put(ref at, (uint)((1 + (Number % 3)) << 7) | (Address << 3));
        Put(ref at, (uint)((Number >> 10) & 0x3FF));
        Put(ref at, (uint)(Number & 0x3FF));
        for (int word = 10; word <= MinorFrame.Words - TailWords; word++)
        {
            int earth = word - MinorFrame.FirstEarthWord;
            bool scene = picture && earth is >= 0 and < MinorFrame.Channels * MinorFrame.EarthSamples;
            Put(ref at, scene ? (uint)MadeUpView.At(earth % MinorFrame.Channels, Number, earth / MinorFrame.Channels) : (uint)(chance.NextBits() >> 54));
        }

        int register = 0x3FF;
        while (at < MinorFrame.Bits)
        {
            int bit = (register >> 9) & 1;
            _bits[at++] = (byte)bit;
            int feedback = ((register >> 9) ^ (register >> 4) ^ (register >> 1) ^ register) & 1;
            register = ((register << 1) | feedback) & 0x3FF;
        }
    }

    private void Put(ref int at, uint word)
    {
        for (int k = MinorFrame.WordBits - 1; k >= 0; k--)
        {
            _bits[at++] = (byte)((word >> k) & 1);
        }
    }
}
