using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Session.Events;
using MathNet.Numerics;

namespace Cockpit.Session.Review;

/// <summary>Weighs what may have happened around a gap: each supposition predicts the level, and the level says how well.</summary>
/// <remarks>
/// Bayesian comparison over grids: a supposition weighs its prior times the mean likelihood over what it leaves open (when, how far, where the dish was
/// before). Residuals are Student's t with 5 degrees of freedom, thinned because fading is correlated over about two seconds. The priors are rates of a
/// plain evening, design values: one called nudge in thirty goes wrong in each way, something passes through the beam or knocks
/// at the dish now and then.
/// </remarks>
internal sealed class GapSuppositions
{
    private const double Thinning = 0.35;
    private const double Freedom = 5.0;
    private const double UsualReaction = 1.4;
    private const double KeyAfterMove = 0.2;
    private const double PromptKey = 4.0;
    private const double MoveErrorDegrees = 0.8;
    private const double Degree = Math.PI / 180.0;
    private const double LongestBefore = 3.0;
    private const double KeptWithin = 4.0;
    private const double FadeSeconds = 20.0;
    private const int Likely = 6;
    private const double NudgePrior = 0.03;
    private const double WrongWayPrior = 0.03;
    private const double AimComesBackAlone = 0.15;
    private const double FadePrior = 0.002;
    private const double SkylinePrior = 0.01;
    private const double KnockPrior = 0.004;
    private const double NominalPrior = 0.4;
    private const double DriftPrior = 0.2;

    private static readonly double[] Shares = [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.65, 1.4, 1.6, 1.8, 2.0, 2.2, 2.4, 2.6, 2.8, 3.0, 3.3];
    private static readonly double[] Reactions = [0.8, 1.4, 2.2];
    private static readonly double[] KnockDegrees = [4.0, 5.5, 7.0, 8.5, 10.0, 12.0, 14.0, 17.0, 20.0];
    private static readonly double[] KnockShares = [0.14, 0.14, 0.13, 0.13, 0.12, 0.11, 0.09, 0.08, 0.06]; // small ones are the usual ones
    private static readonly double[] Depths = [2.0, 3.5, 5.0, 8.0, 12.0, 20.0];
    private static readonly double[] DepthShares = [0.05, 0.1, 0.15, 0.2, 0.25, 0.25]; // a person or a trunk takes 10 dB and more

    private readonly ReviewLog _log;
    private readonly LevelCourse _course;
    private readonly GapEvidence _evidence;
    private readonly Pointing _dish;
    private readonly BeamPath _path;
    private readonly double[] _reachable;
    private readonly double[] _sd;
    private readonly double[] _losses;
    private readonly double[] _spread;
    private readonly double[] _reactions;
    private readonly DishStart[] _starts;
    private readonly DishStart[] _likeliest; // of them, for suppositions that leave much open
    private readonly Dictionary<GapCause, double> _weights = [];
    private double _best = double.MaxValue;

    /// <summary>Makes ready to weigh.</summary>
    /// <param name="log">The session.</param>
    /// <param name="course">What a well-pointed dish would have shown.</param>
    /// <param name="evidence">The half seconds around the gap.</param>
    /// <param name="dish">Belief about the dish at their begin.</param>
    public GapSuppositions(ReviewLog log, LevelCourse course, GapEvidence evidence, Pointing dish)
    {
        _log = log;
        _course = course;
        _evidence = evidence;
        _dish = dish;
        _path = new BeamPath(evidence.Blocks, log.BeamWidth);
        _reachable = [.. evidence.Blocks.Select(b => course.ReachableDb(log.Settings, b.Look!.Value))];
        _sd = [.. evidence.Blocks.Select(b => ResidualSd(b.Look!.Value))];
        _losses = new double[evidence.Blocks.Length];
        _spread = new double[evidence.Blocks.Length];
        _reactions = [.. Enumerable.Range(0, evidence.Calls.Length).Select(i => MovedKeyAfter(i) is { } key and < PromptKey ? Math.Max(0.3, key - KeyAfterMove) : UsualReaction)];
        _starts = DishStart.Around(dish.Spread);
        (_starts, _likeliest) = Heard();
    }

    /// <summary>The gap is at an end of the pass and low: what stands there stays, and is the usual thing.</summary>
    public bool Skyline { get; init; }

    /// <summary>How much the mean of half a second scatters about the course by fading and noise, dB: more near the horizon; design values.</summary>
    public static double ResidualSd(LookAngles look)
    {
        double fading = 0.4 + (0.8 * Math.Exp(-(look.Elevation.Degrees - 5.0) / 10.0));
        return Math.Sqrt((fading * fading) + 0.4);
    }

    /// <summary>The share of each cause, summing to one.</summary>
    public IReadOnlyDictionary<GapCause, double> Weigh()
    {
        Nominal();
        for (int culprit = 0; culprit < _evidence.Calls.Length && _evidence.Calls[culprit].At < _evidence.From; culprit++)
        {
            Late(culprit);
            Amount(culprit);
            WrongWay(culprit);
        }

        Knock();
        Fade();
        Recovery();
        double total = _weights.Values.Sum();
        return _weights.ToDictionary(w => w.Key, w => w.Value / total);
    }

    // The level before anything can have gone wrong says how far from the satellite the dish was: what does not agree with it is left out.
    private (DishStart[] Kept, DishStart[] Likeliest) Heard()
    {
        double quiet = _evidence.Calls.Where(c => c.At < _evidence.From).Select(c => c.At).Append(_evidence.From - LongestBefore).Min();
        HeadMove[] none = [];
        double[] costs = new double[_starts.Length];
        for (int i = 0; i < _starts.Length; i++)
        {
            Predict(none, _starts[i].Right, _starts[i].Up);
            costs[i] = Cost(null, quiet) - Math.Log(_starts[i].Share);
        }

        double least = costs.Min() + KeptWithin;
        DishStart[] kept = [.. _starts.Where((_, i) => costs[i] <= least)];
        int[] order = [.. Enumerable.Range(0, _starts.Length).OrderBy(i => costs[i]).Take(Likely)];
        double share = order.Sum(i => _starts[i].Share) / kept.Sum(s => s.Share);
        return (kept, [.. order.Select(i => _starts[i] with { Share = _starts[i].Share / share })]);
    }

    // All went as it should: then fading took the lines, and a margin that is thin even with perfect aim makes that likely; or the dish had crept off.
    private void Nominal()
    {
        HeadMove[] moves = Moves(-1, 1.0, 1.0, UsualReaction);
        foreach ((double right, double up, double prior) in _starts)
        {
            Predict(moves, right, up);
            (double margin, double loss, double sd) = InGap();
            double lost = SpecialFunctions.Erfc((margin - loss) / (sd * Constants.Sqrt2)) / 2.0;
            bool drift = loss > _log.Settings.AllowedLoss.Value && AimWouldHaveSaved();
            Weigh(drift ? GapCause.OffAim : GapCause.Weak, (drift ? DriftPrior : NominalPrior) * prior * lost, Cost(null));
        }
    }

    private void Late(int culprit)
    {
        // A key tells when the move was done: a late key is a late move, an early one is none.
        double? key = MovedKeyAfter(culprit);
        double[] delays = key is { } told
            ? [.. new[] { told - 0.5, told, told + 0.5 }.Where(d => d > 3.5)]
            : [.. Enumerable.Range(0, 16).Select(i => 3.0 + i), 1000.0];
        foreach (double delay in delays)
        {
            Try(GapCause.Late, NudgePrior / delays.Length, LateMoves(culprit, delay));
        }
    }

    private void Amount(int culprit)
    {
        foreach (double share in Shares)
        {
            double[] reactions = ReactionsOf(culprit);
            double prior = NudgePrior * Tail(share) / Shares.Sum(Tail) / reactions.Length;
            foreach (double reaction in reactions)
            {
                // Not at all is as good as late for ever.
                GapCause cause = share == 0.0 && MovedKeyAfter(culprit) is null ? GapCause.Late : GapCause.Amount;
                Try(cause, prior, Moves(culprit, share, share, reaction));
            }
        }
    }

    // A key says when the move was made.
    private double[] ReactionsOf(int call) => MovedKeyAfter(call) is < PromptKey ? [_reactions[call]] : Reactions;

    // The farther from what was called, the rarer.
    private static double Tail(double share) => 1.0 / (1.0 + (4.0 * (share - 1.0) * (share - 1.0)));

    private void WrongWay(int culprit)
    {
        AimError nudge = _evidence.Calls[culprit].Nudge;
        foreach ((double pan, double tilt) in ((double, double)[])[(-1, 1), (1, -1), (-1, -1)])
        {
            // Turning back an axis that was hardly asked for is no wrong way.
            if ((pan > 0 || nudge.Right.Abs().Degrees > 1.5) && (tilt > 0 || nudge.Up.Abs().Degrees > 1.5))
            {
                double[] reactions = ReactionsOf(culprit);
                foreach (double reaction in reactions)
                {
                    Try(GapCause.WrongWay, WrongWayPrior / (3.0 * reactions.Length), Moves(culprit, pan, tilt, reaction));
                }
            }
        }
    }

    private void Knock()
    {
        double cosine = Math.Max(_dish.Elevation.Cos(), 0.05);
        const int Times = 3;
        const int Directions = 24;
        for (int time = 0; time < Times; time++)
        {
            double at = _evidence.From - 1.1 + (0.5 * time);
            for (int k = 0; k < KnockDegrees.Length; k++)
            {
                double degrees = KnockDegrees[k];
                for (int direction = 0; direction < Directions; direction++)
                {
                    (double sine, double cos) = Math.SinCos(direction * Math.Tau / Directions);
                    HeadMove hit = new(at, sine * degrees * Degree / cosine, cos * degrees * Degree);
                    HeadMove[] moves = [.. Moves(-1, 1.0, 1.0, UsualReaction).Append(hit).OrderBy(m => m.At)];
                    Try(GapCause.OffAim, KnockPrior * KnockShares[k] / (Times * Directions), moves, _likeliest);
                }
            }
        }
    }

    private void Fade()
    {
        HeadMove[] moves = Moves(-1, 1.0, 1.0, UsualReaction);
        const int Starting = 4;
        const int Ending = 5;
        double longer = (_evidence.To - _evidence.From) / FadeSeconds;
        double passes = Skyline ? SkylinePrior : FadePrior / (1.0 + (longer * longer * longer)); // what walks through the beam is soon through
        foreach ((double right, double up, double prior) in _starts)
        {
            Predict(moves, right, up);
            for (int i = 0; i < Starting * Ending; i++)
            {
                double from = _evidence.From - 1.0 + (0.5 * (i / Ending));
                double to = _evidence.To - 1.0 + (0.5 * (i % Ending));
                for (int k = 0; k < Depths.Length; k++)
                {
                    Weigh(GapCause.Fade, prior * passes * DepthShares[k] / (Starting * Ending), Cost((from, to, Depths[k])));
                }
            }
        }
    }

    // What stood in the way goes by itself; a dish that is off comes back by the hand. The other way round would be a coincidence.
    private void Recovery()
    {
        GapCause[] unlikely = _evidence.HandBroughtItBack ? [GapCause.Fade] : [GapCause.OffAim, GapCause.WrongWay, GapCause.Amount];
        foreach (GapCause cause in unlikely.Where(_weights.ContainsKey))
        {
            _weights[cause] *= _evidence.HandBroughtItBack ? _evidence.Coincidence : AimComesBackAlone;
        }
    }

    private void Try(GapCause cause, double prior, HeadMove[] moves, DishStart[]? starts = null)
    {
        foreach ((double right, double up, double share) in starts ?? _starts)
        {
            Predict(moves, right, up);
            Weigh(cause, prior * share, Cost(null));
        }
    }

    private HeadMove[] Moves(int culprit, double panShare, double tiltShare, double delay)
    {
        ImmutableArray<ReviewCall> calls = _evidence.Calls;
        var moves = new HeadMove[calls.Length];
        for (int i = 0; i < calls.Length; i++)
        {
            bool guilty = i == culprit;
            moves[i] = new HeadMove(
                calls[i].At + (guilty ? delay : _reactions[i]),
                calls[i].Nudge.Pan.Radians * (guilty ? panShare : 1.0),
                calls[i].Nudge.Tilt.Radians * (guilty ? tiltShare : 1.0));
        }

        Array.Sort(moves, static (a, b) => a.At.CompareTo(b.At));
        return moves;
    }

    // Who is late does in the end what was called last: the calls between are the same nudge, called again.
    private HeadMove[] LateMoves(int culprit, double delay)
    {
        ImmutableArray<ReviewCall> calls = _evidence.Calls;
        double done = calls[culprit].At + delay;
        var moves = new List<HeadMove>(calls.Length);
        for (int i = 0; i < calls.Length; i++)
        {
            if (i < culprit || calls[i].At >= done)
            {
                moves.Add(new HeadMove(calls[i].At + _reactions[i], calls[i].Nudge.Pan.Radians, calls[i].Nudge.Tilt.Radians));
            }
            else if (i == calls.Length - 1 || calls[i + 1].At >= done)
            {
                moves.Add(new HeadMove(done, calls[i].Nudge.Pan.Radians, calls[i].Nudge.Tilt.Radians));
            }
        }

        return [.. moves.OrderBy(m => m.At)];
    }

    private double? MovedKeyAfter(int call)
    {
        double from = _evidence.Calls[call].At;
        double to = call + 1 < _evidence.Calls.Length ? _evidence.Calls[call + 1].At : from + 30.0;
        foreach (ReviewKey key in _log.Keys)
        {
            if (key.Key == OperatorKey.Moved && key.At > from && key.At <= to)
            {
                return key.At - from;
            }
        }

        return null;
    }

    // Whether most of the gap would have had its level without the pointing loss of this supposition, but for the loss that the plan allows.
    private bool AimWouldHaveSaved()
    {
        double needed = (_course.NeedDb ?? _course.FloorDb) + _log.Settings.AllowedLoss.Value;
        int saved = 0;
        int all = 0;
        for (int i = 0; i < _losses.Length; i++)
        {
            if (_path.MiddleOf(i) >= _evidence.From && _path.MiddleOf(i) <= _evidence.To && _evidence.Blocks[i].LevelDb is { } level)
            {
                all++;
                saved += level + _losses[i] > needed ? 1 : 0;
            }
        }

        return 2 * saved > all;
    }

    // Over the gap: what a perfect aim had over the need, what the aim lost, how much the level scatters.
    private (double Margin, double Loss, double Sd) InGap()
    {
        double margin = 0.0;
        double loss = 0.0;
        double sd = 0.0;
        int count = 0;
        for (int i = 0; i < _losses.Length; i++)
        {
            if (_path.MiddleOf(i) >= _evidence.From - ReviewBlock.Seconds && _path.MiddleOf(i) <= _evidence.To + ReviewBlock.Seconds)
            {
                margin += _reachable[i] - (_course.NeedDb ?? _course.FloorDb);
                loss += _losses[i];
                sd += _sd[i];
                count++;
            }
        }

        return count > 0 ? (margin / count, loss / count, sd / count) : (10.0, 0.0, 1.0);
    }

    // Each move adds a little that nobody knows: where the beam's edge is steep, that is much of a level.
    private void Predict(HeadMove[] moves, double right, double up)
    {
        _path.Losses(_dish, moves, right, up, _losses);
        double slope = 24.0 * MoveErrorDegrees * Degree / _log.BeamWidth.Radians;
        int made = 0;
        for (int i = 0; i < _losses.Length; i++)
        {
            while (made < moves.Length && moves[made].At <= _path.MiddleOf(i))
            {
                made++;
            }

            double steep = slope * slope * made * _losses[i] / 12.0;
            _spread[i] = made == 0 ? _sd[i] : Math.Sqrt((_sd[i] * _sd[i]) + steep);
        }
    }

    private double Cost((double From, double To, double Depth)? fade, double until = double.MaxValue)
    {
        double cost = 0.0;
        for (int i = 0; i < _losses.Length && _path.MiddleOf(i) < until; i++)
        {
            if (_evidence.Blocks[i].LevelDb is { } level)
            {
                bool hidden = fade is { } f && _path.MiddleOf(i) >= f.From && _path.MiddleOf(i) < f.To;
                double predicted = _reachable[i] - _losses[i] - (hidden ? fade!.Value.Depth : 0.0);
                double off = (level - Math.Max(predicted, _course.FloorDb)) / _spread[i];
                cost += (0.5 * (Freedom + 1.0) * Math.Log(1.0 + (off * off / Freedom))) + Math.Log(_spread[i]);
            }
        }

        return Thinning * cost;
    }

    // Weights are kept relative to the least cost so far, so that nothing underflows.
    private void Weigh(GapCause cause, double prior, double cost)
    {
        if (cost < _best)
        {
            double scale = Math.Exp(cost - _best);
            foreach (GapCause key in _weights.Keys.ToArray())
            {
                _weights[key] *= scale;
            }

            _best = cost;
        }

        _weights[cause] = _weights.GetValueOrDefault(cause) + (prior * Math.Exp(_best - cost));
    }
}
