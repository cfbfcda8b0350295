using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Passes;

/// <summary>Passes at the same time, many of them.</summary>
public sealed class PassClashesTests
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 11, 0, 0, TimeSpan.Zero);
    private static readonly VerdictSettings Settings = new() { Site = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520) };
    private static readonly PassVerdict One = PassJudge.One(Candidate("A", TimeSpan.Zero), Settings);

    [Fact]
    public void Of_many_passes_at_once_the_best_eight_are_named_by_time_and_the_others_counted()
    {
        ImmutableArray<PassVerdict> verdicts = [.. Enumerable.Range(0, 40).Select(number => At(number, score: 50 + ((number * 7) % 40)))];
        PassVerdict first = PassJudge.WithClashes(verdicts, TimeSpan.Zero)[0];
        string[] best = [.. verdicts.Skip(1).OrderByDescending(verdict => verdict.Score).Take(8).OrderBy(verdict => verdict.Pass.Aos.Utc).Select(verdict => verdict.Candidate.Satellite)];
        Assert.Equal(best, first.Clashes.Select(clash => clash.Satellite));
        Assert.Equal(31, first.FurtherClashes);
        Assert.EndsWith(" and 38 more", first.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Eight_are_all_named_and_nothing_is_counted()
    {
        PassVerdict first = PassJudge.WithClashes([.. Enumerable.Range(0, 9).Select(number => At(number, score: 60))], TimeSpan.Zero)[0];
        Assert.Equal(["S1", "S2", "S3", "S4", "S5", "S6", "S7", "S8"], first.Clashes.Select(clash => clash.Satellite));
        Assert.Equal(0, first.FurtherClashes);
    }

    // Without the bound, 4000 passes at once are 16 million clashes and more than 600 MB.
    [Fact]
    public void Four_thousand_passes_at_once_stay_small()
    {
        ImmutableArray<PassVerdict> verdicts = [.. Enumerable.Range(0, 4000).Select(number => At(number, score: 50 + (number % 40)))];
        long before = GC.GetAllocatedBytesForCurrentThread();
        ImmutableArray<PassVerdict> named = PassJudge.WithClashes(verdicts, TimeSpan.Zero);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 8_000_000);
        Assert.All(named, verdict => Assert.Equal(3999, verdict.Clashes.Length + verdict.FurtherClashes));
    }

    private static PassVerdict At(int number, double score) =>
        One with { Candidate = Candidate($"S{number}", TimeSpan.FromMilliseconds(number)), Score = score };

    private static PassCandidate Candidate(string satellite, TimeSpan after)
    {
        var track = new CircularPass(Noon + after, Angle.FromDegrees(70));
        return new PassCandidate(satellite, 90002, track.Pass, track, new ElementAge(TimeSpan.FromHours(6), 7.45));
    }
}
