using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>What only a rehearsal knows afterwards: how far the dish was off the satellite.</summary>
public sealed class RehearsalTruth
{
    private double _sum;
    private int _within;
    private int _count;

    /// <summary>Takes what the simulation says at a moment.</summary>
    /// <param name="snapshot">The moment.</param>
    /// <param name="happened">What happened in it.</param>
    public void Follow(Snapshot snapshot, SessionEvent happened)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        if (happened is not TruthRecorded truth || snapshot.Sky is not { Phase: PassPhase.Climbing or PassPhase.Sinking, Now: { } look })
        {
            return;
        }

        Angle off = AimErrors.Separation(truth.Azimuth, truth.Elevation, look.Azimuth, look.Elevation);
        _sum += off.Degrees;
        _within += off <= snapshot.Aim.BeamWidth / 2.0 ? 1 : 0;
        _count++;
    }

    /// <summary>One sentence; null when nothing of the pass was flown.</summary>
    public string? Words() => _count == 0
        ? null
        : string.Create(CultureInfo.InvariantCulture, $"the truth, which only a rehearsal knows: the dish was {_sum / _count:0.0} degrees off the satellite in the mean, and had it in the beam {100.0 * _within / _count:0} % of the time");
}
