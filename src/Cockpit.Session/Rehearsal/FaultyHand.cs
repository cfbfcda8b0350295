using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>A hand that does what it is told, with small errors, but for the faults it is given; it finds the satellite again when asked to peak or search.</summary>
/// <remarks>Made to know the truth of what went wrong, not to be like a person. Degrees, seconds, steps of 0.1 s.</remarks>
internal sealed class FaultyHand(SimulatedDish dish, Xoshiro256 chance, IReadOnlyList<Fault> faults, Action<OperatorKey> press)
{
    private const double SmallError = 0.4;
    private const double SizeError = 0.08;
    private const double PeakError = 1.0;
    private const double ConfirmShare = 0.6;

    private readonly List<(double At, double Pan, double Tilt, bool Confirm, bool Amiss)> _moves = [];
    private readonly HashSet<Fault> _done = [];
    private DateTimeOffset? _answered;
    private double? _findAt;
    private double? _pressAt;

    /// <summary>What is wrong with the aim now by a fault; null when nothing is.</summary>
    public FaultKind? Wrong { get; set; } = faults.Any(f => f.Kind == FaultKind.NotFound) ? FaultKind.NotFound : null;

    /// <summary>By how much the head is off by that fault: what was done less what was called, azimuth and elevation.</summary>
    public (double Pan, double Tilt) Excess { get; private set; }

    /// <summary>Nothing was moved since the fault, so that <see cref="Excess"/> is all that is wrong.</summary>
    public bool Untouched { get; private set; }

    /// <summary>Whether a late nudge is still to be done.</summary>
    public bool Waiting => _moves.Count > 0;

    /// <summary>Goes one step on.</summary>
    /// <param name="now">Seconds after the rise.</param>
    /// <param name="snapshot">What the program says.</param>
    public void Step(double now, Snapshot snapshot)
    {
        Knock(now);
        Answer(now, snapshot);
        Find(now, snapshot);
        for (int i = 0; i < _moves.Count; i++)
        {
            (double at, double pan, double tilt, bool confirm, bool amiss) = _moves[i];
            if (now >= at)
            {
                dish.HeadAzimuth += pan;
                dish.HeadElevation += tilt;
                Excess = amiss && Wrong == FaultKind.Late ? (Excess.Pan + pan, Excess.Tilt + tilt) : Excess;
                Untouched = Untouched && amiss;
                _moves.RemoveAt(i--);
                if (confirm)
                {
                    press(OperatorKey.Moved);
                }
            }
        }
    }

    private void Knock(double now)
    {
        foreach (Fault fault in faults)
        {
            if (fault.Kind == FaultKind.Knock && now >= fault.At && Wrong is null && _done.Add(fault))
            {
                double direction = chance.NextUnit() * Math.Tau;
                Excess = (Math.Cos(direction) * fault.Amount / SimulatedDish.PanShare(dish.HeadElevation), Math.Sin(direction) * fault.Amount);
                dish.HeadAzimuth += Excess.Pan;
                dish.HeadElevation += Excess.Tilt;
                Wrong = FaultKind.Knock;
                Untouched = true;
            }
        }
    }

    private void Answer(double now, Snapshot snapshot)
    {
        if (snapshot.Aim is not { Word: AimWord.Move, Nudge: { } nudge, NudgeAt: { } called } || called == _answered)
        {
            return;
        }

        _answered = called;
        if (Fault(FaultKind.NotFound) is { } busy && now < busy.Seconds)
        {
            return; // not at the dish yet
        }

        double share = SimulatedDish.PanShare(dish.HeadElevation);
        double scale = 1.0 + (SizeError * chance.NextNormal());
        double pan = (nudge.Pan.Degrees * scale) + (SmallError * chance.NextNormal() / share);
        double tilt = (nudge.Tilt.Degrees * scale) + (SmallError * chance.NextNormal());
        double reaction = 1.2 * Math.Exp(0.2 * chance.NextNormal());
        bool confirm = chance.NextUnit() < ConfirmShare;
        if (Wrong == FaultKind.Late && Waiting)
        {
            // Whoever looks elsewhere does what is called last once they come to it.
            _moves[^1] = (_moves[^1].At, pan, tilt, confirm, true);
            return;
        }

        Fault? amiss = NudgeFault(now, nudge);
        if (amiss is { } fault)
        {
            Wrong = fault.Kind;
            Untouched = true;
            (double calledPan, double calledTilt) = (pan, tilt);
            (pan, tilt, reaction) = fault.Kind switch
            {
                FaultKind.Late => (pan, tilt, fault.Seconds),
                FaultKind.Amount => (pan * fault.Amount, tilt * fault.Amount, reaction),
                _ => nudge.Right.Abs() > nudge.Up.Abs() ? (-pan, tilt, reaction) : (pan, -tilt, reaction),
            };
            Excess = fault.Kind == FaultKind.Late ? (-calledPan, -calledTilt) : (pan - calledPan, tilt - calledTilt);
        }

        _moves.Add((now + reaction, pan, tilt, confirm, amiss is not null));
    }

    // One thing after the other: while one is wrong, no other is made to be, or the cause would be neither.
    private Fault? NudgeFault(double now, AimError nudge)
    {
        if (Wrong is not null)
        {
            return null;
        }

        foreach (Fault fault in faults)
        {
            bool wanted = fault.Kind is FaultKind.Late or FaultKind.Amount or FaultKind.WrongWay && now >= fault.At;
            bool large = fault.Kind == FaultKind.Late || nudge.Total.Degrees > 4.0;
            if (wanted && large && _done.Add(fault))
            {
                return fault;
            }
        }

        return null;
    }

    // Asked to peak or to search, the hand finds the satellite after a while and says so.
    private void Find(double now, Snapshot snapshot)
    {
        if (_pressAt is { } at && now >= at)
        {
            press(OperatorKey.Peaked);
            _pressAt = null;
        }

        // Whoever is so late looks elsewhere, and does not hear that either.
        bool away = Wrong == FaultKind.Late && Waiting;
        if (away || snapshot.Aim.Word is not AimWord.Search || snapshot.Sky?.Now is not { } look || look.Elevation < Angle.Zero)
        {
            _findAt = null;
            return;
        }

        _findAt ??= Math.Max(now, Fault(FaultKind.NotFound)?.Seconds ?? 0.0) + (3.5 * Math.Exp(0.3 * chance.NextNormal()));
        if (now >= _findAt && Fault(FaultKind.NotTransmitting) is null)
        {
            dish.HeadElevation = look.Elevation.Degrees + (PeakError * chance.NextNormal());
            dish.HeadAzimuth = look.Azimuth.Degrees + (PeakError * chance.NextNormal() / SimulatedDish.PanShare(dish.HeadElevation));
            _moves.Clear();
            Untouched = false;
            _findAt = now + 6.0;
            _pressAt = now + 1.2;
        }
    }

    private Fault? Fault(FaultKind kind)
    {
        foreach (Fault fault in faults)
        {
            if (fault.Kind == kind)
            {
                return fault;
            }
        }

        return null;
    }
}
