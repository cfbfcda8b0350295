using System.Collections.Immutable;

namespace Cockpit.Core.Verdicts;

/// <summary>Another pass at the same time.</summary>
/// <param name="Satellite">Its satellite.</param>
/// <param name="AosUtc">When it rises, UTC.</param>
/// <param name="Better">Whether that one has the higher score.</param>
public sealed record PassClash(string Satellite, DateTimeOffset AosUtc, bool Better);

/// <summary>Finds which passes overlap; what it keeps of one pass is bounded, so memory grows with the passes and not with their pairs.</summary>
internal sealed class PassClashes
{
    /// <summary>Most passes that are named as clashing with one: the best of them; the others are counted.</summary>
    public const int MostNamed = 8;

    private readonly PassVerdict[] _byTime;
    private readonly double[] _scores;
    private readonly int[]?[] _best;
    private readonly int[] _count;
    private readonly PassClash?[] _better;
    private readonly PassClash?[] _other;

    private PassClashes(PassVerdict[] byTime)
    {
        _byTime = byTime;
        _scores = [.. byTime.Select(verdict => verdict.Score)];
        _best = new int[byTime.Length][];
        _count = new int[byTime.Length];
        _better = new PassClash[byTime.Length];
        _other = new PassClash[byTime.Length];
    }

    /// <summary>Adds to each verdict the passes that overlap it; passes that bring nothing do not count.</summary>
    /// <param name="verdicts">All that could clash, in any order.</param>
    /// <param name="turnAround">Time that one needs between two passes.</param>
    public static ImmutableArray<PassVerdict> Among(ImmutableArray<PassVerdict> verdicts, TimeSpan turnAround)
    {
        int[] counting = [.. Enumerable.Range(0, verdicts.Length).Where(k => verdicts[k].Word != VerdictWord.No).OrderBy(k => verdicts[k].Pass.Aos.Utc)];
        var clashes = new PassClashes([.. counting.Select(k => verdicts[k])]);
        clashes.Compare(turnAround);
        PassVerdict[] named = [.. verdicts];
        for (int i = 0; i < counting.Length; i++)
        {
            named[counting[i]] = clashes.Named(i);
        }

        return ImmutableArray.Create(named);
    }

    private void Compare(TimeSpan turnAround)
    {
        long[] rises = [.. _byTime.Select(verdict => verdict.Pass.Aos.Utc.UtcTicks)];
        for (int i = 0; i < _byTime.Length; i++)
        {
            long end = (_byTime[i].Pass.Los.Utc + turnAround).UtcTicks;
            for (int j = i + 1; j < rises.Length && rises[j] < end; j++)
            {
                Take(i, j);
                Take(j, i);
            }
        }
    }

    // Of the others the best are kept, best first; of two equally good ones the earlier, which comes first.
    private void Take(int one, int other)
    {
        int[] best = _best[one] ??= new int[MostNamed];
        int held = Math.Min(_count[one]++, MostNamed);
        double score = _scores[other];
        if (held == MostNamed && score <= _scores[best[held - 1]])
        {
            return;
        }

        int at = held == MostNamed ? held - 1 : held;
        for (; at > 0 && score > _scores[best[at - 1]]; at--)
        {
            best[at] = best[at - 1];
        }

        best[at] = other;
    }

    private PassVerdict Named(int one)
    {
        if (_best[one] is not { } best)
        {
            return _byTime[one];
        }

        Span<int> held = best.AsSpan(0, Math.Min(_count[one], MostNamed));
        held.Sort();
        var named = ImmutableArray.CreateBuilder<PassClash>(held.Length);
        foreach (int other in held)
        {
            named.Add(ClashOf(other, better: _scores[other] > _scores[one]));
        }

        return _byTime[one] with { Clashes = named.MoveToImmutable(), FurtherClashes = _count[one] - held.Length };
    }

    // The same two records serve all that this pass clashes with.
    private PassClash ClashOf(int other, bool better)
    {
        PassClash?[] made = better ? _better : _other;
        return made[other] ??= new PassClash(_byTime[other].Candidate.Satellite, _byTime[other].Pass.Aos.Utc, better);
    }
}
