using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>Why a hold is left out, and where the dish stands instead.</summary>
/// <param name="Separation">How near the hold would come to the sun.</param>
/// <param name="Azimuth">True azimuth that the dish stands at instead, [0°, 360°).</param>
/// <param name="Elevation">Its elevation there.</param>
/// <param name="WorstLoss">Largest pointing loss there.</param>
public sealed record SunSkip(Angle Separation, Angle Azimuth, Angle Elevation, Decibels WorstLoss);
