using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>Decides when to call a move, and which, from what is believed about the dish. Seconds, degrees, dB.</summary>
/// <remarks>
/// A move is called when staying is expected to lose more picture lines than the best move does with its cost; the same forecast
/// gives the time of the move to come. A level at the floor asks for the compass, in the order of the most probable errors of it,
/// and for a fresh start when that does not help. Without a level the plan leads. Deterministic; allocates only when made.
/// One belongs to one <see cref="DishEstimate"/>.
/// </remarks>
public sealed partial class Steersman
{
    private const double HandSeconds = 0.6;
    private const double ListenSeconds = 0.7;
    private const double FewReaders = 0.35;
    private const double LearnAfter = 6.0;
    private const double SureMoved = 0.97;
    private const double Promise = 3.5;
    private const double CountedInUpTo = 4.5;
    private const double PromiseLines = 2.5;
    private const double PromiseKeptTo = 7.0;
    private const double SetUpSeconds = 6.0;
    private const double OnTarget = 0.15;
    private const double PlanLossDb = 1.0;

    /// <summary>Who sees where the dish points can afford more and smaller moves.</summary>
    private const double SensedPlanLossDb = 0.4;
    private const double PlanHoldsUpTo = 120.0;

    private readonly DishEstimate _estimate;
    private readonly SteeringCost _cost;
    private readonly MoveChooser _chooser;
    private readonly Outlook _outlook;
    private double _lastCall = double.NegativeInfinity;
    private double _moveSeconds = HandSeconds;
    private bool _isSetUp;

    /// <summary>A steersman for one estimate.</summary>
    public Steersman(DishEstimate estimate, SteeringCost cost)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        ArgumentNullException.ThrowIfNull(cost);
        _estimate = estimate;
        _cost = cost;
        _chooser = new MoveChooser(estimate, cost);
        _outlook = new Outlook(estimate, cost);
        _search = new CompassSearch(estimate.Start.Hand, estimate.Start.BeamWidth);
    }

    /// <summary>The call that is open; null when none.</summary>
    public Call? Open { get; private set; }

    /// <summary>How many moves have been called.</summary>
    public int Calls { get; private set; }

    /// <summary>The move to come while none is open; null when none is seen before the end of the pass.</summary>
    public Forecast? Coming { get; private set; }

    /// <summary>Nobody knows where the dish is: the moves go over the most probable places.</summary>
    public bool Lost { get; private set; }

    /// <summary>No level comes, so the plan leads.</summary>
    public bool ByPlan => !_estimate.Hears;

    /// <summary>The sun is in the way, so the plan leads around it.</summary>
    public bool SunLeads { get; private set; }

    /// <summary>Lines that doing nothing is expected to lose in the next seconds.</summary>
    public double LostByStaying { get; private set; }

    /// <summary>The session began within the pass: the dish is being set up.</summary>
    public bool SettingUp => !_isSetUp && _estimate.BegunAt > _estimate.Sky.Aos && _estimate.Seconds < _estimate.BegunAt + SetUpSeconds;

    private HandModel Hand => _estimate.Start.Hand;

    private double WideFrom => _cost.WideFrom(_estimate);

    private double Lead => _chooser.Lead(0.0, 0.0, 5.0);

    /// <summary>The hand says that the move is done: the open one, or the one that was announced.</summary>
    /// <returns>Whether there was one.</returns>
    public bool Done()
    {
        if (Open is null && Coming is { } coming && coming.At - _estimate.Seconds <= Promise)
        {
            // The hand was ahead of the call.
            Make(_estimate.Seconds, coming.Move, CallReason.Follow);
        }

        if (Open is null)
        {
            return false;
        }

        _estimate.Confirm();
        Close(_estimate.Seconds - Hand.ReactionSeconds - HandSeconds);
        return true;
    }

    /// <summary>The hand says that the dish is set up.</summary>
    public void SetUp() => _isSetUp = true;

    /// <summary>The hand says that the last move was not made.</summary>
    public void TakenBack()
    {
        _estimate.TakeBack();
        Open = null;
        _lastCall = double.NegativeInfinity;
    }

    /// <summary>Looks at the belief after a block.</summary>
    public void Advance()
    {
        double now = _estimate.Seconds;
        if (!_estimate.Started || SettingUp || now > _estimate.Sky.Los)
        {
            (Open, Coming, Lost) = (null, null, false);
            return;
        }

        Age(now);
        Lost = now > _estimate.Sky.Aos && _estimate.Hears && (_estimate.AtFloorFor >= 2.0 || (_estimate.Belief.InBeam < 0.3 && _estimate.Belief.Sd > 0.4 * _estimate.Start.BeamWidth));
        double settle = Hand.ReactionSeconds + _moveSeconds + ListenSeconds;
        if (_estimate.AtFloorFor < LevelModel.Block && now - _lastCompass > LearnAfter && now - _lastCompass <= LearnAfter + LevelModel.Block && _estimate.Hears)
        {
            _estimate.Cloud.LearnReaders();
        }

        if (Open is { Move.Kind: MoveKind.Compass } || now - _lastCall < settle || now > _estimate.Sky.Los - 2.0)
        {
            return;
        }

        SunLeads = SunIsInTheWay(now);
        if (SunLeads)
        {
            ByTrack(now, CallReason.Sun);
        }
        else if (_estimate.Hears)
        {
            ByLevel(now);
        }
        else
        {
            ByTrack(now, CallReason.Plan);
        }
    }

    private void ByLevel(double now)
    {
        if (Floor(now))
        {
            return;
        }

        LostByStaying = _chooser.LostByStaying(now);
        bool due = Coming is { } announced && announced.At <= now;
        bool promised = Coming is { } coming && coming.At > now && coming.At - now <= Promise;
        if ((due || LostByStaying > _cost.Move) && !(promised && LostByStaying < PromiseKeptTo))
        {
            bool compass = _estimate.Belief.Sd > WideFrom && now - _lastCompass > 8.0 && LostByStaying > _cost.CompassFrom
                && _estimate.Cloud.Readers > FewReaders;
            bool narrow = _estimate.Belief.Sd <= Math.Max(WideFrom, CountedInUpTo);
            (Candidate best, double stay) = _chooser.Choose(now, compass ? Reading(now) : null);
            double saved = stay - best.LinesLost;
            if (best.Kind != MoveKind.Stay && saved > (due && narrow ? -PromiseLines : 0.0))
            {
                if (due || !narrow || LostByStaying >= PromiseKeptTo)
                {
                    Make(now, best, ReasonOf());
                }
                else if (!promised)
                {
                    // Nothing presses: the hand is told first, and counted in.
                    Coming = new Forecast(now + Promise, best);
                }

                return;
            }
        }

        LookAhead(now, promised);
    }

    private CallReason ReasonOf() => Lost ? CallReason.Search
        : _estimate.Belief.Sd > WideFrom ? CallReason.Probe
        : _estimate.Belief.LossDb > 3.0 ? CallReason.Correct
        : CallReason.Follow;

    private void LookAhead(double now, bool promised)
    {
        if (promised)
        {
            return;
        }

        Coming = _outlook.NextAt(now, Lead) is { } at ? ForecastAt(Math.Max(at, now + LevelModel.Block)) : null;
    }

    private Forecast ForecastAt(double at)
    {
        double time = Coming is { } before && Math.Abs(before.At - at) <= 1.0 && before.At > _estimate.Seconds ? before.At : at;
        return new Forecast(time, MoveTo(_outlook.TargetAt(time, Lead)));
    }

    private Candidate MoveTo(in SkyPoint target)
    {
        (double azimuth, double elevation) = _estimate.Cloud.Mean();
        (double toAzimuth, double toElevation) = _estimate.Sky.Via(_estimate.Seconds, azimuth, elevation, target.Azimuth, Math.Min(90.0, target.Elevation));
        (double first, double second) = _chooser.Amount(azimuth, elevation, toAzimuth, toElevation);
        (first, second) = (Math.Round(first), Math.Round(second));
        HeadMotion.Move(_estimate.Start.Mount, ref azimuth, ref elevation, first, second, MoveError.None);
        return new Candidate(MoveKind.Nudge, first, second, azimuth, elevation, 0.0, 0.0, 0.0);
    }

    /// <summary>No level, or none that helps beside the sun: the dish follows the plan by dead reckoning, in holds of an allowed loss.</summary>
    private void ByTrack(double now, CallReason reason)
    {
        double allowed = _estimate.BySensor is null ? PlanLossDb : SensedPlanLossDb;
        double square = allowed / 12.0 * _estimate.Start.BeamWidth * _estimate.Start.BeamWidth;
        (double azimuth, double elevation) = _estimate.Cloud.Mean();
        Vector mean = Vector.Of(azimuth, elevation);
        double leaves = now;
        while (leaves - now < PlanHoldsUpTo && mean.SquareTo(AimFrom(leaves + Lead).Direction) <= square)
        {
            leaves += LevelModel.Block;
        }

        // Who knows where the dish points sets it up by that before the satellite comes.
        bool early = now + Lead < _estimate.Sky.Aos && _estimate.BySensor is null;
        if (early || leaves >= _estimate.Sky.Los)
        {
            Coming = null;
            return;
        }

        // As far ahead as the satellite stays within the allowed loss of the place it is moved to.
        double ahead = 0.0;
        Vector meets = AimFrom(leaves + Lead).Direction;
        while (ahead < PlanHoldsUpTo && meets.SquareTo(AimFrom(leaves + Lead + ahead).Direction) <= square)
        {
            ahead += LevelModel.Block;
        }

        Candidate move = MoveTo(AimFrom(Math.Min(leaves + Lead + ahead, _estimate.Sky.Los)));
        if (leaves <= now)
        {
            Make(now, move, reason);
        }
        else
        {
            Coming = new Forecast(leaves, move);
        }
    }

    private SkyPoint AimFrom(double seconds) => _estimate.Sky.AimAt(_estimate.BySensor is null ? seconds : Math.Max(seconds, _estimate.Sky.Aos));

    private bool SunIsInTheWay(double now)
    {
        (double azimuth, double elevation) = _estimate.Cloud.Mean();
        return _estimate.Sky.SunLeads(now + Lead, azimuth, elevation);
    }

    private void Age(double now)
    {
        if (Open is not { } open)
        {
            return;
        }

        double reading = open.Move.Kind == MoveKind.Compass ? Hand.ReadingSeconds : 0.0;
        if (now - open.At >= (1.5 * Hand.ReactionSeconds) + 1.6 + _moveSeconds + reading)
        {
            _estimate.Unconfirmed();
            Close(_lastCall);
        }
        else if (_estimate.BySensor is { } place)
        {
            // The words lead on until the dish is there.
            double near = OnTarget * _estimate.Start.BeamWidth;
            bool there = Vector.Of(place.Azimuth, place.Elevation).SquareTo(Vector.Of(open.Move.Azimuth, open.Move.Elevation)) < near * near;
            if (there && now - open.At > Hand.ReactionSeconds)
            {
                Close(_lastCall);
            }
        }
        else if (_estimate.Hears && _estimate.Belief.MovedShare > SureMoved && now - open.At > Hand.ReactionSeconds + HandSeconds)
        {
            Close(_lastCall);
        }
    }

    private void Close(double since)
    {
        _lastCall = Math.Max(_lastCall, since);
        Open = null;
        Coming = null;
    }

    private void Make(double now, in Candidate move, CallReason reason)
    {
        Calls++;
        Open = new Call(now, move, reason, _estimate.Belief);
        Coming = null;
        _lastCall = now;
        _moveSeconds = Math.Max(HandSeconds, 0.9 * Hand.SecondsOf(move.First, move.Second, 0.0));
        if (move.Kind == MoveKind.Compass)
        {
            (_compassAzimuth, _compassElevation, _lastCompass) = (move.ReadAzimuth, move.ReadElevation, now);
            _estimate.CallByCompass(move.First, move.Second, move.ReadAzimuth, move.ReadElevation);
        }
        else
        {
            _estimate.Call(move.First, move.Second);
        }
    }
}
