namespace Cockpit.Core.Time;

/// <summary>What stamps and the moments when they arrived say of a clock: the difference of the least late ones, once it is steady. Pure.</summary>
/// <remarks>
/// A stamp is never early but late by what the way took, which changes: of many the least late is nearest the truth, as with the answers of a time
/// server (RFC 5905, section 10: the clock filter). Steady is what both halves of the last <see cref="Span"/> agree on.
/// </remarks>
public sealed class StampedArrivals
{
    /// <summary>How far back stamps count.</summary>
    public static readonly TimeSpan Span = TimeSpan.FromSeconds(20);

    private static readonly TimeSpan Agreement = TimeSpan.FromSeconds(0.3);
    private const int Enough = 8;
    private const int MostHeld = 1000;

    private readonly Queue<(TimeSpan At, TimeSpan Difference)> _held = new();
    private DateTimeOffset? _stamp;
    private bool _wholeSeconds = true;

    /// <summary>Whether all stamps so far were of whole seconds: then each may be almost a second older than it was when it came.</summary>
    public bool WholeSeconds => _wholeSeconds;

    /// <summary>A stamp came.</summary>
    /// <param name="at">When, by a clock that nobody sets.</param>
    /// <param name="arrival">When, by the clock that is compared.</param>
    /// <param name="stamp">What it says. The same again says nothing.</param>
    public void Came(TimeSpan at, DateTimeOffset arrival, DateTimeOffset stamp)
    {
        if (stamp == _stamp)
        {
            return;
        }

        _stamp = stamp;
        _wholeSeconds &= stamp.Ticks % TimeSpan.TicksPerSecond == 0;
        _held.Enqueue((at, stamp - arrival));
        while (_held.Count > MostHeld || _held.Peek().At < at - Span)
        {
            _held.Dequeue();
        }
    }

    /// <summary>Stamp less arrival of the least late ones: what is to be added to the clock, less the shortest way. Null while it is not steady.</summary>
    public TimeSpan? Difference()
    {
        if (_held.Count < Enough || _held.Last().At - _held.Peek().At < Span / 2)
        {
            return null;
        }

        TimeSpan half = _held.Peek().At + ((_held.Last().At - _held.Peek().At) / 2);
        TimeSpan before = _held.Where(held => held.At <= half).Max(held => held.Difference);
        TimeSpan after = _held.Where(held => held.At > half).Max(held => held.Difference);
        return (before - after).Duration() <= Agreement ? (before > after ? before : after) : null;
    }
}
