namespace Cockpit.Core.Geo;

/// <summary>Where a satellite is and how it moves: true equator, mean equinox of date (TEME), the frame of SGP4.</summary>
/// <param name="X">Towards the mean equinox, km.</param>
/// <param name="Y">Ninety degrees east of it in the true equator, km.</param>
/// <param name="Z">Towards the true pole, km.</param>
/// <param name="Vx">Rate of X, km/s.</param>
/// <param name="Vy">Rate of Y, km/s.</param>
/// <param name="Vz">Rate of Z, km/s.</param>
/// <remarks>Frame: D. Vallado, P. Crawford, R. Hujsak, T. Kelso, Revisiting Spacetrack Report #3, AIAA 2006-6753, appendix C.</remarks>
public readonly record struct TemeState(double X, double Y, double Z, double Vx, double Vy, double Vz);
