using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>A pass as directions at even steps of time: what the verdict is made of.</summary>
internal sealed class PassSamples
{
    /// <summary>Twice that of the plan one works with: here only the number of holds counts, and a hundred satellites are judged at once.</summary>
    private static readonly TimeSpan FinestStep = 2 * HoldPlan.Step;

    /// <summary>Most samples of one pass; the step grows for satellites that hardly move.</summary>
    private const int Most = 4000;

    private readonly DateTimeOffset _from;
    private readonly TimeSpan _step;
    private readonly Direction[] _directions;
    private readonly double[] _rangesKm;

    /// <summary>Samples a pass; where the model has no answer the samples end.</summary>
    /// <param name="candidate">The pass.</param>
    public PassSamples(PassCandidate candidate)
    {
        Pass pass = candidate.Pass;
        var track = new SmoothTrack(candidate.Track, pass.Aos.Utc, pass.Los.Utc);
        _from = pass.Aos.Utc;
        _step = pass.Duration / Most > FinestStep ? pass.Duration / Most : FinestStep;
        int count = (int)Math.Floor(pass.Duration / _step) + 1;
        _directions = new Direction[count];
        _rangesKm = new double[count];
        int good = 0;
        while (good < count && track.TryDirection(UtcOf(good), out _directions[good], out _rangesKm[good]))
        {
            good++;
        }

        Count = good;
    }

    /// <summary>How many there are.</summary>
    public int Count { get; }

    /// <summary>Where the satellite is at each.</summary>
    public ReadOnlySpan<Direction> Directions => _directions.AsSpan(0, Count);

    /// <summary>How far it is at one of them, km.</summary>
    public double RangeKm(int at) => _rangesKm[at];

    /// <summary>How high it is at one of them.</summary>
    public Angle Elevation(int at) => _directions[at].Elevation;

    /// <summary>When one of them is, UTC.</summary>
    public DateTimeOffset UtcOf(int at) => _from + (at * _step);
}
