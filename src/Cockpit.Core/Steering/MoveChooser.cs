using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Chance;
using Cockpit.Core.Units;

namespace Cockpit.Core.Steering;

/// <summary>Chooses the move that is expected to lose the fewest picture lines. Degrees, dB, seconds.</summary>
/// <remarks>
/// Each candidate is made by some of the hypotheses with the hand's own errors (the same for every candidate). While the belief is
/// narrow the lines lost are counted to the end of the time looked ahead. While it is wide they are counted until a second move could follow: for a few hypotheses as truth the level is then heard at the new place, the others are
/// weighed by it, and the second move goes to where the dish then seems to miss; lines lost are counted to the end of the time
/// looked ahead. So a move that would tell the side is worth what it tells, and waiting is a candidate like any other.
/// Allocates only when made. Seeded.
/// </remarks>
internal sealed class MoveChooser
{
    internal const double LinesPerSecond = 6.0;
    private const int Some = 96;
    private const int Truths = 16;
    private const double Step = 0.5;
    private const double Listen = 1.3;
    private const double LeastSecondMove = 2.5;
    private const int Steps = 40;

    /// <summary>A move of less than so many errors that any move has does no good.</summary>
    private const double LeastErrors = 2.0;

    private readonly DishEstimate _estimate;
    private readonly SteeringCost _cost;
    private readonly Particle[] _some = new Particle[Some];
    private readonly double[] _noise = new double[Truths];
    private readonly MoveError[] _first = new MoveError[Some];
    private readonly MoveError[] _firstCompass = new MoveError[Some];
    private readonly MoveError[] _second = new MoveError[Truths];
    private readonly SkyPoint[] _ahead = new SkyPoint[Steps];
    private readonly double[] _azimuth = new double[Some];
    private readonly double[] _elevation = new double[Some];
    private readonly double[] _level = new double[Some];
    private readonly double[] _weight = new double[Steps];
    private readonly double[] _compassNoise = new double[Some];
    private readonly double[] _sd = new double[Steps];
    private readonly double _least;
    private readonly double _reading;
    private readonly double _amount;
    private bool _wide;

    public MoveChooser(DishEstimate estimate, SteeringCost cost)
    {
        _estimate = estimate;
        _cost = cost;
        HandModel hand = estimate.Start.Hand;
        _reading = hand.ReadingDegrees * hand.ReadingDegrees;
        _least = LeastErrors * hand.FloorErrorDegrees;
        _amount = hand.Amount;
        Xoshiro256 chance = new(estimate.Start.Seed, 5);
        for (int i = 0; i < Some; i++)
        {
            _first[i] = ParticleCloud.Drawn(hand, chance, compass: false) with { Wrong = (i % 25) == 7 && hand.WrongWay > 0.02 };
            _firstCompass[i] = ParticleCloud.Drawn(hand, chance, compass: true) with { Wrong = false };
            _compassNoise[i] = chance.NextNormal();
        }

        for (int i = 0; i < Truths; i++)
        {
            _second[i] = ParticleCloud.Drawn(hand, chance, compass: false) with { Wrong = false };
            _noise[i] = chance.NextNormal();
        }
    }

    /// <summary>Lines that staying is expected to lose if nothing is done in the time looked ahead.</summary>
    public double LostByStaying(double now)
    {
        Prepare(now);
        double sum = 0.0;
        int from = (int)Math.Round(Lead(0.0, 0.0, 5.0) / Step);
        int to = Math.Min(Steps, from + (int)(_cost.StayAhead / Step));
        for (int i = 0; i < Some; i++)
        {
            sum += Lost(_some[i], _some[i].Direction, from, to);
        }

        return sum / Some;
    }

    /// <summary>The best move, and what staying costs; called after <see cref="LostByStaying"/>.</summary>
    /// <param name="now">Seconds.</param>
    /// <param name="compass">A compass direction that may be asked for; null when none.</param>
    public (Candidate Best, double Stay) Choose(double now, Candidate? compass)
    {
        (double azimuth, double elevation) = _estimate.Cloud.Mean();
        _wide = _estimate.Belief.Sd > _cost.WideFrom(_estimate);
        Candidate stay = Weigh(new Candidate(MoveKind.Stay, 0.0, 0.0, azimuth, elevation, 0.0, 0.0, 0.0));
        Candidate best = stay with { LinesLost = double.PositiveInfinity };
        foreach (double ahead in _cost.TrackPoints)
        {
            SkyPoint point = _estimate.Sky.AimAt(now + Lead(0.0, 0.0, 5.0) + ahead);
            Better(ref best, azimuth, elevation, point.Azimuth, point.Elevation);
        }

        if (_wide)
        {
            Probes(ref best, now, azimuth, elevation);
        }

        if (compass is { } by)
        {
            Candidate read = Weigh(by);
            best = read.LinesLost < best.LinesLost ? read : best;
        }

        return (best, stay.LinesLost);
    }

    private void Probes(ref Candidate best, double now, double azimuth, double elevation)
    {
        SkyPoint point = _estimate.Sky.At(now + Lead(0.0, 0.0, 5.0) + 2.0);
        for (int i = 0; i < 8; i++)
        {
            (double sin, double cos) = Math.SinCos(i * (Math.PI / 4.0));
            double share = HeadMotion.PanShare(elevation);
            Better(ref best, azimuth, elevation, azimuth + (5.0 * cos / share), elevation + (5.0 * sin));
            Better(ref best, azimuth, elevation, azimuth + (9.0 * cos / share), elevation + (9.0 * sin));
            Better(ref best, azimuth, elevation, point.Azimuth + (4.0 * cos / HeadMotion.PanShare(point.Elevation)), point.Elevation + (4.0 * sin));

            // As if the dish stood where one of the hypotheses has it.
            ref Particle p = ref _some[((i * 2) + 1) * Some / 16];
            (double first, double second) = Amount(p.Azimuth, p.Elevation, point.Azimuth, point.Elevation);
            if (_estimate.Start.Mount == Mount.PanTilt)
            {
                Better(ref best, azimuth, elevation, azimuth + first, elevation + second);
            }
        }
    }

    private void Better(ref Candidate best, double azimuth, double elevation, double toAzimuth, double toElevation)
    {
        (double first, double second) = Amount(azimuth, elevation, toAzimuth, Math.Min(toElevation, 90.0));
        first = Math.Round(first);
        second = Math.Round(second);
        double sideways = first * HeadMotion.PanShare(elevation);
        if ((sideways * sideways) + (second * second) < _least * _least)
        {
            return;
        }

        double newAzimuth = azimuth;
        double newElevation = elevation;
        HeadMotion.Move(_estimate.Start.Mount, ref newAzimuth, ref newElevation, first, second, MoveError.None);
        if (_estimate.Sky.SunBlocks(_estimate.Seconds, azimuth, elevation, newAzimuth, newElevation))
        {
            return;
        }

        Candidate tried = Weigh(new Candidate(MoveKind.Nudge, first, second, newAzimuth, newElevation, 0.0, 0.0, 0.0));
        best = tried.LinesLost < best.LinesLost ? tried : best;
    }

    /// <summary>What is to be called for a move from one direction to another, in the axes of the mount: a hand that moves too little is asked for more.</summary>
    internal (double First, double Second) Amount(double azimuth, double elevation, double toAzimuth, double toElevation)
    {
        if (_estimate.Start.Mount == Mount.PanTilt)
        {
            double turn = toAzimuth - azimuth;
            return ((turn - (360.0 * Math.Round(turn / 360.0))) / _amount, (toElevation - elevation) / _amount);
        }

        AimError move = AimErrors.Between(
            Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation), Angle.FromDegrees(toAzimuth), Angle.FromDegrees(toElevation));
        return (move.Right.Degrees / _amount, move.Up.Degrees / _amount);
    }

    internal double Lead(double first, double second, double size) =>
        _estimate.Start.Hand.ReactionSeconds + (0.5 * _estimate.Start.Hand.SecondsOf(first, second, size));

    private void Prepare(double now)
    {
        _estimate.Cloud.Pick(_some);
        LinkDoubt doubt = LinkDoubt.Of(_estimate);
        double before = _estimate.SeesMoves ? _cost.BeforeSeen : _cost.Before;
        for (int j = 0; j < Steps; j++)
        {
            _ahead[j] = _estimate.Sky.At(now + ((j + 0.5) * Step));
            _weight[j] = now + (j * Step) < _estimate.Sky.Aos ? before : 1.0;
            _sd[j] = doubt.Sd(_ahead[j]);
        }
    }

    private Candidate Weigh(Candidate tried) => _wide ? WeighWide(tried) : WeighNarrow(tried);

    private Candidate WeighNarrow(in Candidate tried)
    {
        double size = Math.Min(40.0, Math.Sqrt((tried.First * tried.First) + (tried.Second * tried.Second)));
        int first = Math.Min(Steps, (int)Math.Round(Lead(0.0, 0.0, 5.0) / Step));
        int made = tried.Kind == MoveKind.Stay ? first : Math.Min(Steps, (int)Math.Round(Lead(tried.First, tried.Second, size) / Step));
        int end = Math.Min(Steps, first + (int)(_cost.StayAhead / Step));
        double sum = 0.0;
        for (int i = 0; i < Some; i++)
        {
            ref Particle p = ref _some[i];
            Place(tried, i);
            sum += Lost(p, p.Direction, first, Math.Min(made, end)) + Lost(p, Vector.Of(_azimuth[i], _elevation[i]), made, end);
        }

        return tried with { LinesLost = (sum / Some) + (tried.Kind == MoveKind.Stay ? 0.0 : _cost.Move) };
    }

    private Candidate WeighWide(in Candidate tried)
    {
        double size = Math.Min(40.0, Math.Sqrt((tried.First * tried.First) + (tried.Second * tried.Second)));
        double lead = tried.Kind switch
        {
            MoveKind.Stay => Lead(0.0, 0.0, 5.0),
            MoveKind.Nudge => Lead(tried.First, tried.Second, size),
            _ => Lead(0.0, 0.0, 20.0) + _estimate.Cloud.ReadingSeconds(),
        };
        int first = Math.Min(Steps, (int)Math.Round(Lead(0.0, 0.0, 5.0) / Step));
        int made = Math.Min(Steps, (int)Math.Round(lead / Step));
        int again = Math.Min(Steps - 4, made + (int)Math.Round((Listen + Lead(0.0, 0.0, 5.0)) / Step));
        double sum = 0.0;
        SkyPoint heardAt = _ahead[Math.Min(Steps - 1, (made + again) / 2)];
        for (int i = 0; i < Some; i++)
        {
            ref Particle p = ref _some[i];
            Place(tried, i);
            Vector place = Vector.Of(_azimuth[i], _elevation[i]);
            sum += Lost(p, p.Direction, first, made) + Lost(p, place, made, again);
            _level[i] = Math.Max(LevelFilter.Mean(p, heardAt, place.SquareTo(heardAt.Direction)) - p.F, _estimate.FloorDb);
        }

        sum /= Some;
        double later = 0.0;
        for (int k = 0; k < Truths; k++)
        {
            later += Later(k, k * Some / Truths, again, heardAt.FadingDb);
        }

        double cost = tried.Kind switch { MoveKind.Stay => 0.0, MoveKind.Nudge => _cost.Probe, _ => _cost.Probe + _cost.Compass };
        return tried with { LinesLost = sum + (later / Truths) + cost };
    }

    private void Place(in Candidate tried, int i)
    {
        ref Particle p = ref _some[i];
        double azimuth = p.Azimuth;
        double elevation = p.Elevation;
        if (tried.Kind == MoveKind.Nudge || (tried.Kind == MoveKind.Compass && !p.ReadsCompass))
        {
            HeadMotion.Move(_estimate.Start.Mount, ref azimuth, ref elevation, tried.First, tried.Second, _first[i]);
        }
        else if (tried.Kind == MoveKind.Compass)
        {
            double turn = tried.ReadAzimuth + p.CompassError + (Math.Sqrt(p.CompassVariance + _reading) * _compassNoise[i]) - azimuth;
            turn -= 360.0 * Math.Round(turn / 360.0);
            double up = tried.ReadElevation + p.TiltError + (Math.Sqrt(p.TiltVariance + _reading) * _compassNoise[Some - 1 - i]) - elevation;
            HeadMotion.Move(Mount.PanTilt, ref azimuth, ref elevation, turn, up, _firstCompass[i]);
        }

        _azimuth[i] = azimuth;
        _elevation[i] = elevation;
    }

    /// <summary>The second move, with one hypothesis as truth, and what is lost after it.</summary>
    private double Later(int k, int truth, int from, double fadingDb)
    {
        double heard = _level[truth] + (_noise[k] * Math.Sqrt(0.5 + (0.6 * fadingDb * fadingDb)));
        double scale = 1.0 / (4.0 * (0.5 + (0.6 * fadingDb * fadingDb)));
        double sum = 0.0;
        double turn = 0.0;
        double elevation = 0.0;
        for (int i = 0; i < Some; i++)
        {
            double off = _level[i] - heard;
            double kernel = 1.0 / (1.0 + (off * off * scale));
            kernel *= kernel * kernel;
            double apart = _azimuth[i] - _azimuth[truth];
            apart -= 360.0 * Math.Round(apart / 360.0);
            sum += kernel;
            turn += kernel * apart;
            elevation += kernel * _elevation[i];
        }

        double meanAzimuth = _azimuth[truth] + (turn / sum);
        double meanElevation = elevation / sum;
        SkyPoint aim = _ahead[Math.Min(Steps - 1, from + 8)];
        (double first, double second) = Amount(meanAzimuth, meanElevation, aim.Azimuth, aim.Elevation);
        double newAzimuth = _azimuth[truth];
        double newElevation = _elevation[truth];
        double seems = Vector.Of(meanAzimuth, meanElevation).SquareTo(aim.Direction);
        double cost = 0.0;
        if (seems > LeastSecondMove * LeastSecondMove)
        {
            HeadMotion.Move(_estimate.Start.Mount, ref newAzimuth, ref newElevation, first, second, _second[k]);
            cost = _cost.Probe;
        }

        return cost + Lost(_some[truth], Vector.Of(newAzimuth, newElevation), from, Steps);
    }

    /// <summary>Lines that one hypothesis loses in a direction between two steps.</summary>
    private double Lost(in Particle p, Vector direction, int from, int to)
    {
        double lost = 0.0;
        for (int j = from; j < to; j++)
        {
            ref SkyPoint sky = ref _ahead[j];
            if (_weight[j] <= 0.0)
            {
                continue;
            }

            double margin = sky.MarginDb + p.G + (sky.Steepness * p.S) - _estimate.ThresholdDb
                - Math.Min(p.BeamSquare * direction.SquareTo(sky.Direction), LevelModel.SideLobesDb);
            lost += _weight[j] * Normal.Below(-margin / _sd[j]);
        }

        return lost * LinesPerSecond * Step;
    }
}
