using System.Collections.Immutable;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;

namespace Cockpit.Checks;

/// <summary>Learns simulated hands from ten passes each, and flies other passes with and without what was learnt.</summary>
public static class LearnFlights
{
    private const ulong FirstSeed = 1000; // of the passes that are learnt from; the others begin at 0

    /// <summary>Learns one hand and compares.</summary>
    /// <param name="trials">The passes of the comparison, guided, all of one hand.</param>
    /// <param name="done">Told after each pass how many are done; called from several threads, one at a time.</param>
    /// <param name="cancel">Ends it early.</param>
    public static LearnTrial Fly(ImmutableArray<Trial> trials, Action<int> done, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(done);
        ArgumentOutOfRangeException.ThrowIfZero(trials.Length, nameof(trials));
        HandSkill skill = trials[0].Skill;
        var passes = new HandOfPass[LearntHand.MostPasses];
        var gate = new Lock();
        int finished = 0;
        Parallel.For(0, passes.Length, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            passes[i] = LearningPass.Fly(skill, FirstSeed + (ulong)i);
            lock (gate)
            {
                done(++finished);
            }
        });
        var learnt = LearntHand.Of(passes);
        ImmutableArray<PassScore> standard = GuidanceFlights.Fly(trials, count => done(passes.Length + count), cancel);
        ImmutableArray<PassScore> fitted = GuidanceFlights.Fly([.. trials.Select(t => t with { Learnt = learnt.Settings() })], count => done(passes.Length + trials.Length + count), cancel);
        return new LearnTrial(
            skill, learnt, 100.0 * standard.Average(s => s.LostShare), 100.0 * fitted.Average(s => s.LostShare), LossDifference.Of(standard, fitted));
    }

    /// <summary>Passes flown for one hand.</summary>
    public static int CountOf(ImmutableArray<Trial> trials) => LearntHand.MostPasses + (2 * trials.Length);
}
