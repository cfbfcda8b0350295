namespace Cockpit.Core.Estimate;

/// <summary>Turns readings of any quantity into dB over the nominal threshold, and knows the receiver's floor.</summary>
/// <remarks>
/// The floor is what is read while the satellite is below the horizon; where that was never heard, a level near the usual floor is
/// taken for it, and lower ones pull it down. Power contains the noise: what the signal adds to the floor is taken for the signal.
/// A receiver's chain that is switched while the program runs (the amplifier gets its power last) has another floor from then on.
/// </remarks>
internal sealed class LevelScale
{
    private const double UsualFloorDb = -8.0;
    private const double LeastRatio = 0.2;
    private const double ForgetBlocks = 60.0;
    private const double NearFloorDb = 4.0;
    private const double DownShare = 0.3;

    // Noise alone never wanders so far from its mean; two blocks in a row are a switch.
    private const double SwitchedDb = 6.0;

    // The link budget gives 20 dB for a 1.0 m dish and a satellite overhead: no signal lies further above its floor.
    private const double MostOverFloorDb = 25.0;

    // A signal of a usual pass over its floor, until lower readings tell better.
    private const double UsualOverFloorDb = 10.0;

    private readonly double _snrAtThreshold;
    private readonly double _cn0AtThreshold;
    private LevelKind _kind;
    private double _floor;
    private double _weight;
    private bool _heard;
    private int _apart;

    public LevelScale(EstimateSetup setup)
    {
        _snrAtThreshold = setup.SnrAtThreshold;
        _cn0AtThreshold = setup.Cn0AtThreshold;
    }

    /// <summary>The floor, dB over the nominal threshold.</summary>
    public double FloorDb => _kind == LevelKind.Power
        ? (10.0 * Math.Log10(LeastRatio)) - _snrAtThreshold
        : _heard || _weight > 0.0 ? _floor - Nominal : UsualFloorDb;

    private double Nominal => _kind == LevelKind.CarrierToNoiseDensity ? _cn0AtThreshold : _snrAtThreshold;

    /// <summary>Another quantity is a scale of its own.</summary>
    /// <returns>Whether it is another than before.</returns>
    public bool Change(LevelKind kind)
    {
        if (kind == _kind)
        {
            return false;
        }

        (_kind, _floor, _weight, _heard) = (kind, 0.0, 0.0, false);
        return true;
    }

    /// <summary>A block without any signal.</summary>
    public void Silence(double reading)
    {
        _apart = _heard && Math.Abs(reading - _floor) > SwitchedDb ? _apart + 1 : 0;
        if (_apart == 1)
        {
            return;
        }

        _weight = _apart > 1 ? 1.0 : Math.Min(_weight + 1.0, ForgetBlocks);
        _floor += (reading - _floor) / _weight;
        _heard = true;
    }

    /// <summary>A block in the pass.</summary>
    /// <returns>dB over the nominal threshold.</returns>
    public double Of(double reading)
    {
        if (!_heard)
        {
            Suppose(reading);
        }
        else if (_kind == LevelKind.Power && reading > _floor + MostOverFloorDb)
        {
            (_floor, _weight, _heard) = (reading - UsualOverFloorDb, 1.0, false);
        }

        return _kind == LevelKind.Power
            ? (10.0 * Math.Log10(Math.Max(Math.Pow(10.0, (reading - _floor) / 10.0) - 1.0, LeastRatio))) - _snrAtThreshold
            : reading - Nominal;
    }

    private void Suppose(double reading)
    {
        if (_weight == 0.0)
        {
            bool silent = _kind == LevelKind.Power || reading < Nominal + UsualFloorDb + NearFloorDb;
            (_floor, _weight) = (silent ? reading : Nominal + UsualFloorDb, 1.0);
        }
        else if (reading < _floor)
        {
            _floor += DownShare * (reading - _floor);
        }
    }

    /// <summary>dB over the nominal threshold back to readings.</summary>
    public double Reading(double db) => _kind == LevelKind.Power
        ? _floor + (10.0 * Math.Log10(1.0 + Math.Pow(10.0, (db + _snrAtThreshold) / 10.0)))
        : db + Nominal;
}
