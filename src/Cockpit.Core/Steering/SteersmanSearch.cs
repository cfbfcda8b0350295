using Cockpit.Core.Estimate;

namespace Cockpit.Core.Steering;

/// <summary>The search by compass when the level is at the floor.</summary>
public sealed partial class Steersman
{
    private const double FloorSeconds = 3.0;
    private const double LookFor = 2.5;
    private const double AudibleDb = 8.0;
    private const double CompassAtLeastEvery = 11.0;
    private const double RestartAfter = 7.0;

    private readonly CompassSearch _search;
    private (double Compass, double Tilt) _allowedFor;
    private double _lastCompass = double.NegativeInfinity;
    private bool _searching;
    private double? _floorSinceCompass;
    private double _compassAzimuth = double.NaN;
    private double _compassElevation;

    /// <summary>The level is at the floor though the satellite is up: by compass, and again from the start.</summary>
    private bool Floor(double now)
    {
        if (_estimate.AtFloorFor < LevelModel.Block)
        {
            (_searching, _floorSinceCompass) = (false, null);
            return false;
        }

        if (_estimate.SeesMoves)
        {
            // Each place that was heard in vain is known to be one: the moves themselves search.
            return false;
        }

        double over = _estimate.Sky.At(now).MarginDb - _estimate.FloorDb;
        _searching = _searching || (_estimate.AtFloorFor >= FloorSeconds && (now > _estimate.Sky.Aos || over > AudibleDb));
        if (!_searching)
        {
            return false;
        }

        if (!double.IsNaN(_compassAzimuth) && _floorSinceCompass + RestartAfter < now)
        {
            _estimate.StartAgain(_compassAzimuth, _compassElevation);
            _floorSinceCompass = now;
        }

        // A hand that seems to have no compass is asked for it less often, never not at all: who is lost may only have looked in the wrong place.
        if (_estimate.Cloud.Readers < FewReaders && now - _lastCompass < CompassAtLeastEvery)
        {
            return false;
        }

        if (now - _lastCompass < Hand.ReactionSeconds + Hand.ReadingSeconds + LookFor)
        {
            return true;
        }

        if (_floorSinceCompass is not null)
        {
            // Nothing was heard since the last look.
            _search.Failed(_allowedFor.Compass, _allowedFor.Tilt, over);
        }

        Make(now, Reading(now), CallReason.Search);
        _floorSinceCompass ??= now;
        return true;
    }

    /// <summary>What the instruments have to read for the dish to point at the satellite, by their most probable errors.</summary>
    private Candidate Reading(double now)
    {
        SkyPoint sky = _estimate.Sky.AimAt(now + Hand.ReactionSeconds + Hand.ReadingSeconds + 4.0);
        (double compass, double tilt) = _floorSinceCompass is not null && _search.Count > 0
            ? _search.Best(sky.Elevation)
            : _estimate.Cloud.ProbableErrors(0.5 * _estimate.Start.BeamWidth, sky.Elevation);
        _allowedFor = (compass, tilt);
        double azimuth = Math.Round(sky.Azimuth - compass);
        azimuth -= 360.0 * Math.Floor(azimuth / 360.0);
        return MoveTo(sky) with
        {
            Kind = MoveKind.Compass,
            ReadAzimuth = azimuth,
            ReadElevation = Math.Round(Math.Clamp(sky.Elevation - tilt, -3.0, 90.0)),
        };
    }
}
