using System.Collections.Immutable;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Checks;

/// <summary>Flies many simulated passes on all processors; the scores come in the order of the passes whatever the order of flying.</summary>
public static class GuidanceFlights
{
    /// <summary>Flies them.</summary>
    /// <param name="trials">The passes.</param>
    /// <param name="done">Told after each pass how many are done; called from several threads, one at a time.</param>
    /// <param name="cancel">Ends it early.</param>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public static ImmutableArray<PassScore> Fly(ImmutableArray<Trial> trials, Action<int> done, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(done);
        var scores = new PassScore[trials.Length];
        var gate = new Lock();
        int finished = 0;
        Parallel.For(0, trials.Length, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            scores[i] = ClosedLoop.Fly(trials[i]);
            lock (gate)
            {
                done(++finished);
            }
        });
        return [.. scores];
    }
}
