using Cockpit.Core.Aim;
using Cockpit.Core.Chance;

namespace Cockpit.Core.Estimate;

/// <summary>Many hypotheses about the dish with their weights; arrays are made once, nothing is allocated later. Degrees, dB, seconds.</summary>
internal sealed partial class ParticleCloud
{
    private const double Roughening = 0.25;
    private const double LostRight = 15.0;
    private const double LostUp = 8.0;
    private const double AtOnceShare = 0.25;

    // A compass beside iron errs far more than its owner thinks.
    private const double FarShare = 0.1;
    private const double FarTimes = 2.2;
    private const double SetUpReadingShare = 0.5;
    private const double ThrownShare = 0.004;
    private const double ThrownRight = 8.0;
    private const double ThrownUp = 6.0;

    private readonly HandModel _hand;
    private readonly Mount _mount;
    private readonly double _beamWidth;
    private readonly Xoshiro256 _chance;
    private double _readers = 0.8;
    private Particle[] _now;
    private Particle[] _next;

    public ParticleCloud(int count, HandModel hand, Mount mount, double beamWidth, Xoshiro256 chance)
    {
        _hand = hand;
        _mount = mount;
        _beamWidth = beamWidth;
        _chance = chance;
        _now = new Particle[count];
        _next = new Particle[count];
    }

    public ReadOnlySpan<Particle> Particles => _now;

    public HandModel Hand => _hand;

    public Mount Mount => _mount;

    /// <summary>The dish was set up by compass and inclinometer.</summary>
    public void Start(double azimuth, double elevation, double fadingDb)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            double factor = Math.Exp(LevelModel.BeamSpread * _chance.NextNormal());
            double width = _beamWidth * factor;
            ref Particle p = ref _now[i];
            p = new Particle
            {
                BeamSquare = 12.0 / (width * width),
                GG = LevelModel.GainSd * LevelModel.GainSd,
                SS = LevelModel.SteepnessSd * LevelModel.SteepnessSd,
                FF = fadingDb * fadingDb,
                ReadsCompass = true,
                ReadsAtOnce = _chance.NextUnit() < AtOnceShare,
                Weight = 1.0 / _now.Length,
            };
            Stand(ref p, azimuth, elevation, 1.0);
        }
    }

    /// <summary>Nobody knows any more where the dish is but by the last reading of the compass; gain and beam are kept.</summary>
    public void StartAgain(double azimuth, double elevation)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            p.Weight = 1.0 / _now.Length;
            p.Pending = Pending.None;
            p.Blocked = 0.0;
            p.ReadsCompass = _chance.NextUnit() < _readers;
            if (p.ReadsCompass)
            {
                Stand(ref p, azimuth, elevation, 1.3);
                continue;
            }

            p.Azimuth += LostRight * _chance.NextNormal() / HeadMotion.PanShare(p.Elevation);
            p.Elevation = Math.Clamp(p.Elevation + (LostUp * _chance.NextNormal()), -10.0, 90.0);
            p.Point();
        }
    }

    /// <summary>Time passes: the dish sways, called moves are made, obstructions come and go.</summary>
    public void Wait(double now, double seconds, double fadingDb)
    {
        _mean = null;
        double walk = LevelModel.WalkDegrees * Math.Sqrt(seconds);
        double gainWalk = _step.IsThere ? SensorGainWalk + (LowGainWalk * (fadingDb - 0.4)) : LevelModel.GainWalk;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            LevelFilter.Wait(ref p, seconds, fadingDb, gainWalk);
            if (_step.IsThere)
            {
                Change(ref p, seconds);
            }

            bool follows = _step.IsThere && p.Follows;
            if (p.Pending != Pending.None && (IsSeen(p) ? IsOver(ref p, now) : p.PendingAt <= now))
            {
                Make(ref p, now);
            }

            if (follows)
            {
                Follow(ref p, now, seconds);
            }

            if (!follows || !_step.HasAzimuth)
            {
                p.Azimuth += walk * _chance.NextNormal() / HeadMotion.PanShare(p.Elevation);
            }

            if (!follows || !_step.HasElevation)
            {
                p.Elevation += walk * _chance.NextNormal();
            }

            p.Point();
            Obstruct(ref p, seconds);
        }
    }

    /// <summary>Takes in the level of a block and draws the hypotheses anew where few are left that count.</summary>
    /// <param name="sky">The satellite in the middle of the block.</param>
    /// <param name="now">Its time.</param>
    /// <param name="level">Mean level, dB over the nominal threshold.</param>
    /// <param name="floor">The receiver's floor in the same unit.</param>
    /// <param name="noise">Variance of the block beside the level's own, dB^2.</param>
    public void Hear(in SkyPoint sky, double now, double level, double floor, double noise)
    {
        _mean = null;
        for (int i = 0; i < _now.Length; i++)
        {
            ref Particle p = ref _now[i];
            double more = now < p.MovingUntil ? LevelModel.MovingVariance : 0.0;
            p.Weight = Math.Max(p.Weight * LevelFilter.Take(ref p, sky, level, floor, noise + more), 1e-30);
        }

        Settle();
    }

    /// <summary>Makes the weights add up to one, and draws anew where few hypotheses are left that count.</summary>
    private void Settle()
    {
        double sum = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            sum += _now[i].Weight;
        }

        double squares = 0.0;
        for (int i = 0; i < _now.Length; i++)
        {
            double weight = _now[i].Weight / sum;
            _now[i].Weight = weight;
            squares += weight * weight;
        }

        if (1.0 / squares < 0.5 * _now.Length)
        {
            Resample();
        }
    }

    private void Resample()
    {
        Kernel kernel = _step.IsThere ? KernelOf() : default;
        double step = 1.0 / _now.Length;
        double at = step * _chance.NextUnit();
        double reached = _now[0].Weight;
        int from = 0;
        for (int i = 0; i < _next.Length; i++)
        {
            while (reached < at && from < _now.Length - 1)
            {
                reached += _now[++from].Weight;
            }

            ref Particle p = ref _next[i];
            p = _now[from];
            p.Weight = step;
            bool thrown = _chance.NextUnit() < ThrownShare;
            if (p.Follows && _step.IsThere && !thrown)
            {
                Roughen(ref p, kernel);
            }
            else
            {
                p.Azimuth += (thrown ? ThrownRight : Roughening) * _chance.NextNormal() / HeadMotion.PanShare(p.Elevation);
                p.Elevation = Math.Clamp(p.Elevation + ((thrown ? ThrownUp : Roughening) * _chance.NextNormal()), -10.0, 90.0);
            }

            p.BeamSquare *= 1.0 + (0.02 * _chance.NextNormal());
            p.Point();
            at += step;
        }

        (_now, _next) = (_next, _now);
    }

    private void Stand(ref Particle p, double azimuth, double elevation, double wider)
    {
        wider *= _chance.NextUnit() < FarShare ? FarTimes : 1.0;
        double once = SetUpReadingShare * _hand.ReadingDegrees;
        (p.CompassError, p.CompassVariance) = (0.0, Square(wider * _hand.CompassDegrees));
        (p.TiltError, p.TiltVariance) = (0.0, Square(wider * _hand.InclinometerDegrees));
        p.Azimuth = azimuth + Read(ref p.CompassError, ref p.CompassVariance, once * once);
        p.Elevation = Math.Clamp(elevation + Read(ref p.TiltError, ref p.TiltVariance, once * once), -10.0, 90.0);
        p.BeforeAzimuth = p.Azimuth;
        p.BeforeElevation = p.Elevation;
        p.Point();
    }

    private static double Square(double value) => value * value;

    private void Obstruct(ref Particle p, double seconds)
    {
        if (p.Blocked > 0.0)
        {
            p.Blocked = _chance.NextUnit() < LevelModel.ClearedRate * seconds ? 0.0 : p.Blocked;
        }
        else if (_chance.NextUnit() < LevelModel.BlockedRate * seconds)
        {
            p.Blocked = LevelModel.BlockedLeastDb + ((LevelModel.BlockedMostDb - LevelModel.BlockedLeastDb) * _chance.NextUnit());
        }
    }
}
