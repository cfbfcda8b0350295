using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Link;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>A span in which something stands in the way: a tree, a person, a passing bus.</summary>
/// <param name="FromUtc">Begin, UTC.</param>
/// <param name="Length">How long.</param>
/// <param name="Loss">How much it takes.</param>
public readonly record struct Obstruction(DateTimeOffset FromUtc, TimeSpan Length, Decibels Loss);

/// <summary>A simulated satellite signal and the receiver that measures it; usable alone with any track and any dish.</summary>
/// <remarks>
/// Margin over the threshold of the picture = 6 dB at 30° for a 0.8 m dish, falling with 0.75 of free space towards the
/// horizon (the satellite's antenna is shaped), plus fading (first-order Gaussian, 2 s, stronger at the horizon), minus the
/// pointing loss. The reading has 0.7 dB noise, a floor 8 dB under the threshold and an unknown constant offset, as uncalibrated
/// receivers have. Design values. Seeded; the chance of a step does not depend on the dish, so the same seed is the same world
/// for every hand.
/// </remarks>
public sealed class SimulatedReceiver
{
    /// <summary>Time between two measurements.</summary>
    public static readonly TimeSpan Step = TimeSpan.FromSeconds(0.1);

    /// <summary>Picture lines sent in a second.</summary>
    public const double LinesPerSecond = 6.0;

    /// <summary>What an SNR reads at the threshold of the picture before the unknown offset, dB.</summary>
    public const double SnrAtThresholdDb = 5.0;

    private const double FloorDb = -8.0;
    private const double RangeAt30Km = 1441.8; // 830 km up, sphere of 6371 km, elevation 30°
    private const double FadingSeconds = 2.0;
    private const double ReferenceDiameterMetres = 0.8;
    private const double BelowHorizonDb = -60.0;
    private const double LockLostDb = -2.0;
    private const double LockGainedDb = -1.0;
    private const double NoiseLevelDb = -68.0;

    private readonly ITrack _track;
    private readonly Beam _beam;
    private readonly double _diameterGainDb;
    private readonly ImmutableArray<Obstruction> _obstructions;
    private readonly WorldModel _world;
    private readonly LinkModel _budget;
    private readonly double _budgetAt30Db;
    private readonly Xoshiro256 _chance;
    private readonly double[] _recent = [BelowHorizonDb, BelowHorizonDb, BelowHorizonDb, BelowHorizonDb, BelowHorizonDb];
    private double _fading;
    private double _frames;
    private long _steps;

    /// <summary>Sets up a receiver.</summary>
    /// <param name="track">Where the satellite goes.</param>
    /// <param name="beam">The dish.</param>
    /// <param name="diameterMetres">Its diameter, metres, positive.</param>
    /// <param name="seed">Seed of fading, noise and offset.</param>
    /// <param name="obstructions">What stands in the way, and when.</param>
    /// <param name="world">Level, fading, noise; <see cref="WorldModel.Today"/> when not given.</param>
    public SimulatedReceiver(
        ITrack track, Beam beam, double diameterMetres, ulong seed, ImmutableArray<Obstruction> obstructions = default, WorldModel? world = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameterMetres);
        _world = world ?? WorldModel.Today;
        _track = track;
        _beam = beam with { HalfPowerWidth = beam.HalfPowerWidth * _world.BeamFactor };
        _budget = new LinkModel { Dish = new ReceivingDish { DiameterMetres = diameterMetres, PointingError = Angle.Zero } };
        _budgetAt30Db = _budget.ExpectedMargin(Angle.FromDegrees(30), RangeAt30Km).Value;
        _diameterGainDb = 20.0 * Math.Log10(diameterMetres / ReferenceDiameterMetres);
        _obstructions = obstructions.IsDefault ? [] : obstructions;
        _chance = new Xoshiro256(seed, 1);
        OffsetDb = _world.OffsetDb + (_world.OffsetSdDb * _chance.NextNormal());
        _fading = _chance.NextNormal();
    }

    /// <summary>The receiver's constant offset, dB; nobody outside the simulation knows it.</summary>
    public double OffsetDb { get; }

    /// <summary>Margin over the threshold at the last step, dB.</summary>
    public double MarginDb { get; private set; } = BelowHorizonDb;

    /// <summary>Angle between the dish and the satellite at the last step; null where the track has no answer.</summary>
    public Angle? OffAxis { get; private set; }

    /// <summary>The last reading over the threshold of the picture, offset included, dB.</summary>
    public double ReadingDb { get; private set; } = FloorDb;

    /// <summary>Whether a person sees the signal in it: 2 dB over the floor.</summary>
    public bool Visible => SeenAs(ReadingDb);

    /// <summary>Whether the line that is being sent is lost: the mean margin of the last half second is below zero.</summary>
    public bool LineLost { get; private set; } = true;

    /// <summary>Whether the decoder is locked.</summary>
    public bool Locked { get; private set; }

    /// <summary>Whether a level is one that a person sees as signal.</summary>
    public bool SeenAs(double readingDb) => readingDb > FloorDb + OffsetDb + 2.0;

    /// <summary>Margin of a dish that points at the satellite, without fading, dB.</summary>
    public double MarginOnAxisDb(LookAngles look) => _world.MarginAt30Db + _diameterGainDb + (_world.BudgetLaw
        ? _budget.ExpectedMargin(look.Elevation, look.RangeKm).Value - _budgetAt30Db
        : -_world.RangeLaw * 20.0 * Math.Log10(look.RangeKm / RangeAt30Km));

    /// <summary>Goes one step of 0.1 s on and measures.</summary>
    /// <param name="utc">The moment, UTC.</param>
    /// <param name="dishAzimuth">Where the dish points then.</param>
    /// <param name="dishElevation">Where the dish points then, up to 92°: over the top.</param>
    /// <returns>SNR, level, lock and the count of good lines.</returns>
    public SignalSample Measure(DateTimeOffset utc, Angle dishAzimuth, Angle dishElevation)
    {
        double keep = Math.Exp(-Step.TotalSeconds / FadingSeconds);
        _fading = (keep * _fading) + (Math.Sqrt(1.0 - (keep * keep)) * _chance.NextNormal());
        double noise = _world.ReadingNoiseDb * _chance.NextNormal();

        LookAngles? look = _track.At(utc);
        OffAxis = look is { } seen ? AimErrors.Separation(dishAzimuth, dishElevation, seen.Azimuth, seen.Elevation) : null;
        MarginDb = look is { } up && up.Elevation > Angle.Zero && OffAxis is { } off ? Margin(up, off, utc) : BelowHorizonDb;
        ReadingDb = Math.Max(MarginDb, FloorDb) + OffsetDb + noise;
        Decode();
        return Sample();
    }

    private double Margin(LookAngles look, Angle off, DateTimeOffset utc)
    {
        double fadingSd = _world.FadingFactor * (0.4 + (0.8 * Math.Exp(-(look.Elevation.Degrees - 5.0) / 10.0)));
        double blocked = 0.0;
        foreach (Obstruction obstruction in _obstructions)
        {
            blocked += utc >= obstruction.FromUtc && utc < obstruction.FromUtc + obstruction.Length ? obstruction.Loss.Value : 0.0;
        }

        return MarginOnAxisDb(look) + (fadingSd * _fading) - _beam.LossAt(off).Value - blocked;
    }

    private void Decode()
    {
        _recent[_steps++ % _recent.Length] = MarginDb;
        double mean = _recent.Average();
        LineLost = mean < 0.0;
        Locked = Locked ? mean > LockLostDb : mean > LockGainedDb;
        _frames += LineLost ? 0.0 : LinesPerSecond * Step.TotalSeconds;
    }

    private SignalSample Sample()
    {
        double snr = ReadingDb + SnrAtThresholdDb;
        return new SignalSample
        {
            SnrDb = Math.Round(snr, 2),
            LevelDb = Math.Round(NoiseLevelDb + Decibels.FromRatio(1.0 + new Decibels(snr).Ratio).Value, 2),
            Locked = Locked,
            Frames = (long)_frames,
        };
    }
}
