using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>Says of passes whether they are worth going out for.</summary>
public static class PassJudge
{
    /// <summary>Below this elevation of the sun there is not enough light for a visible picture (common practice, no source).</summary>
    private static readonly Angle PictureSun = Angle.FromDegrees(5);

    private const int SamplesPerMargin = 10;

    /// <summary>Judges passes together: each by itself, then which of them clash.</summary>
    /// <param name="candidates">The passes, in any order.</param>
    /// <param name="settings">Station, dish, service.</param>
    /// <returns>Verdicts in the order of the candidates.</returns>
    public static ImmutableArray<PassVerdict> All(IEnumerable<PassCandidate> candidates, VerdictSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return WithClashes([.. candidates.Select(candidate => One(candidate, settings))], settings.TurnAround);
    }

    /// <summary>Best first; of two equally good ones the earlier.</summary>
    public static ImmutableArray<PassVerdict> BestFirst(IEnumerable<PassVerdict> verdicts) =>
        [.. verdicts.OrderByDescending(verdict => verdict.Word).ThenByDescending(verdict => verdict.Score).ThenBy(verdict => verdict.Pass.Aos.Utc)];

    /// <summary>Judges one pass by itself.</summary>
    /// <param name="candidate">The pass.</param>
    /// <param name="settings">Station, dish, service.</param>
    public static PassVerdict One(PassCandidate candidate, VerdictSettings settings)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        ArgumentNullException.ThrowIfNull(settings);
        Pass pass = candidate.Pass;
        Angle beamWidth = settings.Link.Dish.BeamWidth(settings.Link.Carrier);
        var samples = new PassSamples(candidate);
        ImmutableArray<Decibels> margins = Margins(samples, settings);
        double share = margins.IsEmpty ? 0.0 : margins.Count(margin => margin > Decibels.Zero) / (double)margins.Length;
        int nudges = Math.Max(0, HoldPlan.Count(samples.Directions, new Beam(beamWidth), settings.AllowedLoss) - 1);

        var station = new StationFrame(settings.Site);
        var sun = new BodyDuringPass(SkyBody.Sun, pass);
        Angle sunBelow = SunBelow(station, sun, pass.Tca);
        (Angle sunAtRise, Angle sunAtSet) = (SunBelow(station, sun, pass.Aos), SunBelow(station, sun, pass.Los));
        PictureLight light = Light(sunBelow, sunAtRise, sunAtSet);
        BodyNearness? sunNear = sun.Nearest(station, samples);
        Angle aside = candidate.ElementAge.AngleAt(pass.Tca.Look.RangeKm).High;
        Decibels margin = settings.Link.ExpectedMargin(pass.Tca.Look.Elevation, pass.Tca.Look.RangeKm);
        return new PassVerdict
        {
            Candidate = candidate,
            Travel = TravelWords.Of(pass),
            Round = TravelWords.Round(pass),
            MarginAtCulmination = margin,
            LeastMargin = margins.IsEmpty ? margin : margins.Min(),
            MarginUncertainty = settings.Link.Eirp.Uncertainty,
            ReceivableShare = share,
            Nudges = nudges,
            SunBelowSatellite = sunBelow,
            SunBelowAtRise = sunAtRise,
            SunBelowAtSet = sunAtSet,
            Light = light,
            Sun = sunNear,
            Moon = new BodyDuringPass(SkyBody.Moon, pass).Nearest(station, samples),
            BeamWidth = beamWidth,
            Aside = aside,
            Score = PassScoring.Of(pass.Duration * share, margin, light, nudges, sunNear?.Separation, beamWidth, aside),
        };
    }

    /// <summary>The track of a pass as the judge sees it: sampled every ten seconds, smooth between.</summary>
    /// <param name="candidate">The pass.</param>
    public static ITrack Smooth(PassCandidate candidate)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        return new SmoothTrack(candidate.Track, candidate.Pass.Aos.Utc, candidate.Pass.Los.Utc);
    }

    /// <summary>Adds to each verdict the passes that overlap it, with the time one needs in between; passes that bring nothing do not count. The best eight are named, the others counted.</summary>
    /// <param name="verdicts">All that could clash, in any order.</param>
    /// <param name="turnAround">Time between two passes.</param>
    public static ImmutableArray<PassVerdict> WithClashes(ImmutableArray<PassVerdict> verdicts, TimeSpan turnAround) =>
        PassClashes.Among(verdicts, turnAround);

    private static ImmutableArray<Decibels> Margins(PassSamples samples, VerdictSettings settings)
    {
        var margins = ImmutableArray.CreateBuilder<Decibels>((samples.Count / SamplesPerMargin) + 1);
        for (int i = 0; i < samples.Count; i += SamplesPerMargin)
        {
            margins.Add(settings.Link.ExpectedMargin(samples.Elevation(i), samples.RangeKm(i)));
        }

        return margins.ToImmutable();
    }

    private static Angle SunBelow(StationFrame station, BodyDuringPass sun, PassMoment moment)
    {
        LookAngles look = moment.Look;
        double flat = look.RangeKm * look.Elevation.Cos();
        EcefPosition satellite = station.FromEnu(flat * look.Azimuth.Sin(), flat * look.Azimuth.Cos(), look.RangeKm * look.Elevation.Sin());
        Site below = satellite.ToSite() with { HeightMetres = 0.0 };
        return sun.ElevationAt(below, moment.Utc);
    }

    private static PictureLight Light(params ReadOnlySpan<Angle> sun)
    {
        bool light = true;
        bool dark = true;
        foreach (Angle elevation in sun)
        {
            light &= elevation >= PictureSun;
            dark &= elevation < PictureSun;
        }

        return light ? PictureLight.Daylight : dark ? PictureLight.InfraRedOnly : PictureLight.Mixed;
    }
}
