using Cockpit.Core.Chance;

namespace Cockpit.Core.Estimate;

/// <summary>The belief about the dish without any sensor: from track, clock, level, called moves and keys. Degrees, dB, seconds.</summary>
/// <remarks>
/// A cloud of hypotheses (direction, instruments' errors, beam width, obstruction, whether the last call was followed and when),
/// each with a Kalman filter of its own for gain, steepness and fading of the level. Evidence comes in blocks of half a second.
/// Seeded and deterministic; allocates only when made. Not safe for two threads. Time never goes back.
/// </remarks>
public sealed partial class DishEstimate
{
    private const double BelowHorizon = -0.5;
    private const double OverFloorDb = 2.0;
    private const double SilentAfter = 2.0;

    private readonly EstimateSetup _setup;
    private SkyTable _sky;
    private readonly ParticleCloud _cloud;
    private readonly LevelScale _scale;
    private readonly DishSensor _sensor;
    private readonly Threshold _threshold = new();
    private readonly LineRate _frames = new();
    private double _block = double.NaN;
    private double _now = double.NegativeInfinity;
    private double _sum;
    private int _count;
    private double _good;
    private int _lines;
    private bool _started;
    private int _calls;
    private int _keys;
    private double _heardAt = double.NegativeInfinity;

    /// <summary>An estimate for one pass.</summary>
    public DishEstimate(EstimateSetup setup, SkyTable sky)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(sky);
        _setup = setup;
        _sky = sky;
        _cloud = new ParticleCloud(setup.Particles, setup.Hand, setup.Mount, setup.BeamWidth, new Xoshiro256(setup.Seed, 3));
        _scale = new LevelScale(setup);
        _sensor = new DishSensor(setup.Speed);
        _threshold.Reset();
        Setup = sky.AimAt(sky.Aos);
    }

    /// <summary>Where the dish was to be set up by compass.</summary>
    public SkyPoint Setup { get; private set; }

    /// <summary>When the estimate began, s.</summary>
    public double BegunAt { get; private set; } = double.NaN;

    /// <summary>What is believed after the last block.</summary>
    public DishBelief Belief { get; private set; }

    /// <summary>How long the level has been at the floor though the satellite is up, s.</summary>
    public double AtFloorFor { get; private set; }

    /// <summary>Whether the level has come within two seconds.</summary>
    public bool Hears => _block - _heardAt < SilentAfter;

    /// <summary>Whether any level ever came.</summary>
    public bool HasHeard => !double.IsNegativeInfinity(_heardAt);

    /// <summary>Seconds since the last level came.</summary>
    public double SilentFor => _block - _heardAt;

    /// <summary>Whether the belief is at work: from the satellite's rise above the level horizon on.</summary>
    public bool Started => _started;

    /// <summary>Level of the last block in readings, less than <see cref="SilentAfter"/> old; NaN without.</summary>
    public double LevelDb { get; private set; } = double.NaN;

    /// <summary>The receiver's floor, dB over the nominal threshold.</summary>
    public double FloorDb => _scale.FloorDb;

    /// <summary>End of the last block.</summary>
    public double Seconds => _block;

    internal ParticleCloud Cloud => _cloud;

    internal EstimateSetup Start => _setup;

    internal SkyTable Sky => _sky;

    internal double ThresholdDb => _threshold.Mean;

    internal double ThresholdSd => _threshold.Sd;

    /// <summary>dB over the nominal threshold as the receiver would read it.</summary>
    public double Reading(double db) => _scale.Reading(db);

    /// <summary>The clock was corrected: the same pass lies elsewhere in the session's time.</summary>
    public void Follow(SkyTable sky)
    {
        ArgumentNullException.ThrowIfNull(sky);
        _sky = sky;
    }

    /// <summary>A level came.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="reading">Its value, dB.</param>
    public void Level(LevelKind kind, double reading)
    {
        if (_scale.Change(kind))
        {
            (_sum, _count) = (0.0, 0);
        }

        _sum += reading;
        _count++;
    }

    /// <summary>Picture lines came or did not.</summary>
    /// <param name="goodShare">Share that came, 0..1.</param>
    public void Lines(double goodShare)
    {
        _good += goodShare;
        _lines++;
    }

    /// <summary>The sender's count of picture lines or frames.</summary>
    /// <param name="count">All since it began; a smaller number than before begins anew.</param>
    public void Frames(long count) => _frames.Count(count);

    /// <summary>Time goes on: closes the blocks that are over.</summary>
    /// <param name="seconds">Seconds since the zero of the table, not before the last.</param>
    /// <returns>Whether a block was closed.</returns>
    public bool Advance(double seconds)
    {
        _now = seconds;
        double block = Math.Floor(seconds / LevelModel.Block) * LevelModel.Block;
        if (double.IsNaN(_block) || block - _block > 120.0)
        {
            // The first event, or a gap in which everything may have happened.
            _block = block;
            Begin();
            return true;
        }

        bool closed = false;
        while (_block < block)
        {
            _block += LevelModel.Block;
            Close();
            closed = true;
        }

        return closed;
    }

    /// <summary>A move was called.</summary>
    /// <param name="first">Pan, or to the right, degrees.</param>
    /// <param name="second">Tilt, or up, degrees.</param>
    public void Call(double first, double second)
    {
        _calls++;
        _cloud.Call(_block, first, second, null, 0.0);
    }

    /// <summary>The dish was called to be set by compass and inclinometer; a hand without them makes the move instead.</summary>
    /// <param name="first">Pan, or to the right, degrees.</param>
    /// <param name="second">Tilt, or up, degrees.</param>
    /// <param name="azimuth">What the compass is to read, true azimuth, degrees.</param>
    /// <param name="elevation">What the inclinometer is to read, degrees.</param>
    public void CallByCompass(double first, double second, double azimuth, double elevation)
    {
        _calls++;
        _cloud.Call(_block, first, second, azimuth, elevation);
    }

    /// <summary>The hand says that the called move is done.</summary>
    public void Confirm()
    {
        _keys++;
        _cloud.Confirm(_block);
        Summarise();
    }

    /// <summary>A call went by without a key.</summary>
    public void Unconfirmed() => _cloud.Unconfirmed(1.0 - Math.Min(0.9, (_keys + 1.0) / (_calls + 1.0)));

    /// <summary>The hand says that the last move was not made.</summary>
    public void TakeBack()
    {
        _cloud.TakeBack();
        Summarise();
    }

    /// <summary>The hand says that the signal is at its best.</summary>
    public void Mark()
    {
        _cloud.Mark(_sky.At(_block));
        Summarise();
    }

    /// <summary>The dish was set to a direction by compass and nothing else is known about it.</summary>
    public void StartAgain(double azimuth, double elevation)
    {
        _cloud.StartAgain(azimuth, elevation);
        Summarise();
    }

    /// <summary>The direction of the dish is known: a perfect sensor, for comparisons.</summary>
    public void Known(double azimuth, double elevation)
    {
        _cloud.Known(azimuth, elevation);
        Summarise();
    }

    private void Begin()
    {
        BegunAt = _block;
        SkyPoint now = _sky.At(Math.Max(_block, _sky.Aos));
        Setup = now;
        _cloud.Start(now.Azimuth, now.Elevation, now.FadingDb);
        _started = false;
        Summarise();
    }

    private void Close()
    {
        double middle = _block - (LevelModel.Block / 2.0);
        SkyPoint sky = _sky.At(middle);
        double? reading = _count > 0 ? _sum / _count : null;
        if (reading is not null)
        {
            _heardAt = _block;
        }

        if (_frames.Close(_block) is { } came)
        {
            Lines(came);
        }

        if (sky.Elevation < BelowHorizon && reading is { } silence)
        {
            _scale.Silence(silence);
        }

        _started = _started || sky.Elevation > 0.0;
        if (_started && middle <= _sky.Los + 5.0)
        {
            Follow();
            _cloud.Wait(middle, LevelModel.Block, sky.FadingDb);
            if (reading is { } heard)
            {
                Hear(sky, middle, heard);
            }
        }

        LevelDb = reading ?? (Hears ? LevelDb : double.NaN);
        (_sum, _count, _good, _lines) = (0.0, 0, 0.0, 0);
        Summarise();
        Trust();
    }

    private void Hear(in SkyPoint sky, double middle, double reading)
    {
        double level = _scale.Of(reading);
        double floor = _scale.FloorDb;
        AtFloorFor = level < floor + OverFloorDb ? AtFloorFor + LevelModel.Block : 0.0;
        _cloud.Hear(sky, middle, level, floor, LevelModel.ReadingVariance);
        if (_lines > 0)
        {
            _threshold.Take(level, _good / _lines);
        }
    }

    private void Summarise() => Belief = _cloud.Summary(_block, _sky.At(_block), _threshold.Mean);
}
