namespace Cockpit.Core.Estimate;

/// <summary>What is believed about the dish at one moment; degrees, dB, seconds.</summary>
/// <param name="Seconds">The moment, seconds since the zero of the table.</param>
/// <param name="Azimuth">Mean azimuth, [0, 360).</param>
/// <param name="Elevation">Mean elevation, at most 90.</param>
/// <param name="SdMajor">Standard deviation along the longer axis of the region.</param>
/// <param name="SdMinor">The same across it.</param>
/// <param name="MajorTilt">Angle of the longer axis, from "right" towards "up", seen from behind the dish, -90..90.</param>
/// <param name="R50">The dish is within this angle of the mean with 50 %.</param>
/// <param name="R95">The same with 95 %.</param>
/// <param name="InBeam">Probability that the satellite is within the half-power beam.</param>
/// <param name="LossDb">Expected beam loss, at most 20.</param>
/// <param name="ExpectedDb">Level of a well-pointed dish, over the nominal threshold.</param>
/// <param name="ThresholdDb">Threshold of the picture in the same unit.</param>
/// <param name="BlockedShare">Probability that something stands in the way.</param>
/// <param name="MovedShare">Probability that the last called move was made.</param>
public readonly record struct DishBelief(
    double Seconds,
    double Azimuth,
    double Elevation,
    double SdMajor,
    double SdMinor,
    double MajorTilt,
    double R50,
    double R95,
    double InBeam,
    double LossDb,
    double ExpectedDb,
    double ThresholdDb,
    double BlockedShare,
    double MovedShare)
{
    /// <summary>Root mean square of the two axes: one standard deviation for each axis.</summary>
    public double Sd => Math.Sqrt(0.5 * ((SdMajor * SdMajor) + (SdMinor * SdMinor)));
}
