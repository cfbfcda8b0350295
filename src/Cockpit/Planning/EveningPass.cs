using Cockpit.Core.Link;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

/// <summary>Rise, top or set of a pass, with what the hand needs then.</summary>
/// <param name="Utc">When, UTC.</param>
/// <param name="Azimuth">True azimuth, [0°, 360°).</param>
/// <param name="Compass">The same as a compass reads it, [0°, 360°).</param>
/// <param name="Elevation">Above the horizontal, as it is shown.</param>
/// <param name="OverSkyline">Above what hides the sky there; null where no skyline is known.</param>
/// <param name="Below">How light it is on the ground below the satellite.</param>
/// <param name="Tuned">Where the carrier is received, Doppler in.</param>
public readonly record struct EveningMoment(DateTimeOffset Utc, Angle Azimuth, Angle Compass, Angle Elevation, Angle? OverSkyline, GroundLight Below, Frequency Tuned)
{
    /// <summary>Works it out.</summary>
    /// <param name="moment">The moment of the pass.</param>
    /// <param name="sunBelow">Elevation of the sun at the point below the satellite then.</param>
    /// <param name="carrier">What the satellite sends on.</param>
    /// <param name="question">Station, skyline, refraction.</param>
    /// <param name="field">The magnetic field at the station.</param>
    internal static EveningMoment Of(PassMoment moment, Angle sunBelow, Frequency carrier, PassQuestion question, MagneticField field)
    {
        Angle azimuth = moment.Look.Azimuth.WrappedToTurn();
        Angle elevation = question.Shown(moment.Look.Elevation);
        Frequency shift = Doppler.Shift(carrier, moment.Look.RangeRateKmPerSec);
        return new EveningMoment(
            moment.Utc, azimuth, field.ToMagnetic(azimuth), elevation, question.Horizon is { } skyline ? elevation - skyline.At(azimuth) : null,
            GroundLights.Of(sunBelow), new Frequency(carrier.Hertz + shift.Hertz));
    }
}

/// <summary>One of the passes of an evening.</summary>
/// <param name="Number">Its place among them, from 1: the best.</param>
/// <param name="Planned">The pass, with elements and link.</param>
/// <param name="Rise">Its first sight over skyline and least elevation.</param>
/// <param name="Top">Its culmination.</param>
/// <param name="Set">Its last sight.</param>
public sealed record EveningPass(int Number, PlannedPass Planned, EveningMoment Rise, EveningMoment Top, EveningMoment Set)
{
    /// <summary>What comes with it.</summary>
    public PassVerdict Verdict => Planned.Verdict;

    /// <summary>Name of the satellite.</summary>
    public string Satellite => Planned.Satellite;

    /// <summary>From rise to set.</summary>
    public TimeSpan Duration => Planned.Pass.Duration;

    /// <summary>The whole of what is known of one pass.</summary>
    internal static EveningPass Of(int number, PlannedPass planned, PassQuestion question, MagneticField field)
    {
        EveningMoment At(PassMoment moment, Angle sunBelow) => EveningMoment.Of(moment, sunBelow, planned.Link.Carrier, question, field);
        PassVerdict verdict = planned.Verdict;
        return new EveningPass(
            number, planned, At(planned.Pass.Aos, verdict.SunBelowAtRise), At(planned.Pass.Tca, verdict.SunBelowSatellite), At(planned.Pass.Los, verdict.SunBelowAtSet));
    }
}
