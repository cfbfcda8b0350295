namespace Cockpit.Core.Dsp;

/// <summary>Raises the flags that need a memory of the windows before.</summary>
public sealed class WarningWatch
{
    private const int Second = 10;
    private const double FloorStepDb = 6;
    private const double TooMuchClipping = 0.01;
    private const int ClippedWindows = 3;
    private const double FewSteps = 2;
    private const double DcTimesRms = 3;

    private readonly double[] _floors = new double[2 * Second];
    private int _windows;
    private int _clipped;
    private double? _floorBefore;

    /// <summary>Takes the next window.</summary>
    /// <param name="statistics">Of its samples.</param>
    /// <param name="format">What they were converted from.</param>
    /// <param name="noise">The noise floor, power; 0 where it is not known.</param>
    public MeterWarnings Next(in BlockStatistics statistics, SampleFormat format, double noise)
    {
        double moving = Math.Max(statistics.Power - statistics.DcPower, 0);
        double rms = Math.Sqrt(moving / 2);
        _clipped = statistics.ClipShare > TooMuchClipping ? _clipped + 1 : 0;
        return (AmplifierOff(noise) ? MeterWarnings.AmplifierOff : MeterWarnings.None)
            | (rms < FewSteps * format.Step() ? MeterWarnings.GainTooLow : MeterWarnings.None)
            | (_clipped >= ClippedWindows ? MeterWarnings.Overload : MeterWarnings.None)
            | (statistics.DcPower > DcTimesRms * DcTimesRms * moving && statistics.DcPower > 0 ? MeterWarnings.Dc : MeterWarnings.None);
    }

    /// <summary>Forgets the windows before.</summary>
    public void Reset()
    {
        _windows = 0;
        _clipped = 0;
        _floorBefore = null;
    }

    // A second of floors before, a second after: every one of the later lies 6 dB under every one of the earlier.
    private bool AmplifierOff(double noise)
    {
        double db = noise > 0 ? 10 * Math.Log10(noise) : -300;
        _floors[_windows++ % _floors.Length] = db;
        if (_windows < _floors.Length)
        {
            return false;
        }

        double earlier = double.MaxValue, later = double.MinValue;
        for (int age = 0; age < _floors.Length; age++)
        {
            double floor = _floors[(_windows - 1 - age) % _floors.Length];
            later = age < Second ? Math.Max(later, floor) : later;
            earlier = age > Second ? Math.Min(earlier, floor) : earlier;
        }

        if (_floorBefore is null && later <= earlier - FloorStepDb)
        {
            _floorBefore = earlier;
        }
        else if (_floorBefore is { } before && db > before - (FloorStepDb / 2))
        {
            _floorBefore = null;
        }

        return _floorBefore is not null;
    }
}
