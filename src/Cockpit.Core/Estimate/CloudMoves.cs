namespace Cockpit.Core.Estimate;

/// <summary>What the hand does to the hypotheses: calls, keys, marks.</summary>
internal sealed partial class ParticleCloud
{
    private const double DoneLapsed = 0.02;
    private const double LaterSpread = 0.3;

    /// <summary>How well a peak by ear is found, beam widths.</summary>
    private const double MarkWidths = 0.2;

    /// <summary>Between two readings the errors of the instruments wander a little: iron, a strap that slips; degrees squared.</summary>
    private const double ErrorWander = 0.3;

    private const double ReadingTimeSpread = 0.15;

    /// <summary>A move was called; each hypothesis draws what the hand makes of it, and when.</summary>
    public void Call(double now, double first, double second, double? toAzimuth, double toElevation)
    {
        _mean = null;
        (_gonePan, _goneTilt) = (0.0, 0.0);
        _calledSize = Math.Sqrt((first * first * (_mount == Aim.Mount.Free ? 1.0 : MeanPanShareSquare())) + (second * second));
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            if (p.Pending != Pending.None && !IsSeen(p))
            {
                // The hand first ends what it has begun.
                Make(ref p, now);
                p.Point();
            }

            p.Moved = false;
            p.Lapsed = _chance.NextUnit() < _hand.Lapse;
            p.BeforeAzimuth = p.Azimuth;
            p.BeforeElevation = p.Elevation;
            if (p.Lapsed)
            {
                p.Pending = Pending.None;
                continue;
            }

            p.ReadsCompass = _chance.NextUnit() < _readers;
            bool reads = toAzimuth is not null && p.ReadsCompass;
            p.Pending = reads ? Pending.Compass : Pending.Nudge;
            (p.PendingPan, p.PendingTilt) = reads && toAzimuth is { } azimuth ? ByCompass(ref p, azimuth, toElevation) : (first, second);
            double size = Math.Sqrt((p.PendingPan * p.PendingPan) + (p.PendingTilt * p.PendingTilt));
            double seconds = _hand.SecondsOf(p.PendingPan, p.PendingTilt, Math.Min(size, 40.0));
            double reading = !reads || p.ReadsAtOnce ? 0.0 : _hand.ReadingSeconds * Math.Exp(ReadingTimeSpread * _chance.NextNormal());
            p.PendingAt = now + (_hand.ReactionSeconds * Math.Exp(_hand.ReactionSpread * _chance.NextNormal())) + reading + (0.5 * seconds);
            p.MovingUntil = p.PendingAt + (0.5 * seconds);
        }
    }

    /// <summary>The hand says that the move is done.</summary>
    public void Confirm(double now)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            if (p.Pending != Pending.None)
            {
                Make(ref p, now);
                p.Point();
            }

            p.MovingUntil = Math.Min(p.MovingUntil, now);
            p.Weight *= p.Lapsed && !IsSeen(p) ? DoneLapsed : 1.0;
        }

        Settle();
    }

    /// <summary>No key came after a call: so much less likely is it that the move was made.</summary>
    public void Unconfirmed(double factor)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            _now[i].Weight *= _now[i].Lapsed || IsSeen(_now[i]) ? 1.0 : factor;
        }

        Settle();
    }

    /// <summary>The hand says that the last move was not made.</summary>
    public void TakeBack()
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            p.Pending = Pending.None;
            if (IsSeen(p))
            {
                continue;
            }

            p.Azimuth = p.Moved ? p.BeforeAzimuth : p.Azimuth;
            p.Elevation = p.Moved ? p.BeforeElevation : p.Elevation;
            p.Moved = false;
            p.Point();
        }
    }

    /// <summary>What the level after a reading of the compass says about the hand: does it read it at all?</summary>
    public void LearnReaders() => _readers = Math.Clamp(ReaderShare(), 0.1, 0.95);

    /// <summary>The hand says that the signal is at its best; who peaks moves the dish without being asked.</summary>
    /// <param name="sky">The satellite now.</param>
    public void Mark(in SkyPoint sky)
    {
        _mean = null;
        double wide = MarkWidths * _beamWidth;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double z2 = p.Direction.SquareTo(sky.Direction) / (wide * wide);
            p.Weight *= 0.1 + (0.9 * Math.Exp(-0.5 * z2));
        }

        Settle();
        Resample();
        for (int i = 0; i < _now.Length; i += 2)
        {
            ref Particle p = ref _now[i];
            p.Azimuth = sky.Azimuth + (wide * _chance.NextNormal() / HeadMotion.PanShare(sky.Elevation));
            p.Elevation = Math.Clamp(sky.Elevation + (wide * _chance.NextNormal()), -10.0, 90.0);
            p.Pending = Pending.None;
            p.Point();
        }
    }

    /// <summary>Every hypothesis points there.</summary>
    public void Known(double azimuth, double elevation)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            p.Azimuth = azimuth;
            p.Elevation = elevation;
            p.Point();
        }
    }

    private double MeanPanShareSquare()
    {
        double share = HeadMotion.PanShare(Mean().Elevation);
        return share * share;
    }

    private (double First, double Second) ByCompass(ref Particle p, double azimuth, double elevation)
    {
        double reading = _hand.ReadingDegrees * _hand.ReadingDegrees;
        double turn = azimuth + Read(ref p.CompassError, ref p.CompassVariance, reading) - p.Azimuth;
        turn -= 360.0 * Math.Round(turn / 360.0);
        return (turn, elevation + Read(ref p.TiltError, ref p.TiltVariance, reading) - p.Elevation);
    }

    /// <summary>Draws by how much a reading errs, and what a hypothesis with this error then believes about the instrument.</summary>
    private double Read(ref double error, ref double variance, double reading)
    {
        variance += ErrorWander;
        double before = error;
        double off = Math.Sqrt(variance + reading) * _chance.NextNormal();
        error += variance / (variance + reading) * off;
        variance *= reading / (variance + reading);
        return before + off;
    }

    private void Make(ref Particle p, double now)
    {
        if (IsSeen(p))
        {
            (p.Pending, p.Moved) = (Pending.None, !p.Lapsed);
            return;
        }

        bool compass = p.Pending == Pending.Compass;
        double elevation = p.Elevation;
        double azimuth = p.Azimuth;
        MoveError error = Drawn(_hand, _chance, compass);

        // Read off a scale, a direction is made in the axes of the scales whatever the mount.
        HeadMotion.Move(compass ? Aim.Mount.PanTilt : _mount, ref p.Azimuth, ref p.Elevation, p.PendingPan, p.PendingTilt, error);
        p.Elevation = p.Follows && _step.HasElevation ? elevation : p.Elevation;
        p.Azimuth = p.Follows && _step.HasAzimuth ? azimuth : p.Azimuth;
        p.Pending = Pending.None;
        p.Moved = true;
        p.MovingUntil = Math.Max(p.MovingUntil, now + LaterSpread);
    }

    /// <summary>Draws the errors of one move.</summary>
    internal static MoveError Drawn(HandModel hand, Chance.Xoshiro256 chance, bool compass)
    {
        double size = compass ? hand.ReadingSizeError : hand.SizeError;
        bool wrong = chance.NextUnit() < hand.WrongWay;
        double amount = compass ? 1.0 : hand.Amount;
        double scale = amount * (1.0 + (size * chance.NextNormal()));
        double other = amount * (1.0 + (size * chance.NextNormal()));
        (double sin, double cos) = Math.SinCos(hand.DirectionErrorDegrees * (Math.PI / 180.0) * chance.NextNormal());
        return new MoveError(scale, other, sin, cos, hand.FloorErrorDegrees * chance.NextNormal(), hand.FloorErrorDegrees * chance.NextNormal(), wrong);
    }
}
