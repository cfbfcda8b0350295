using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Sky;

/// <summary>What is worked out once for a session: the pass, its picture and its hold plan; then the sky at any moment. Pure.</summary>
/// <param name="Track">The satellite over the station; asked several times for each event.</param>
/// <param name="Epoch">Epoch of the elements, UTC.</param>
/// <param name="Pass">The pass of the session.</param>
/// <param name="Plot">The pass sampled evenly, for the sky plot.</param>
/// <param name="Path">The pass sampled every <see cref="HoldPlan.Step"/>, for the plan of the nudges.</param>
/// <param name="Holds">The hold plan of the pass.</param>
/// <param name="Sun">The sun along the pass; null for a pass without moments, or where the place is not known.</param>
/// <param name="Avoids">What keeps the dish off the sun; null where it is nowhere near, or flown all the same.</param>
public sealed record SkyPlan(
    ITrack Track,
    DateTimeOffset Epoch,
    Pass Pass,
    ImmutableArray<PassMoment> Plot,
    ImmutableArray<PassMoment> Path,
    ImmutableArray<Hold> Holds,
    SunPath? Sun,
    SunAvoidance? Avoids = null)
{
    /// <summary>How far ahead the pass of a session may lie.</summary>
    public const double HorizonDays = 10.0;

    /// <summary>The last seconds before AOS are "ready".</summary>
    public static readonly TimeSpan ReadyBefore = TimeSpan.FromSeconds(60);

    private const int PlotSamples = 120;
    private static readonly ImmutableArray<int> SecondsAhead = [10, 20, 30];

    /// <summary>Finds the pass of a session that begins at an instant, and plans it.</summary>
    /// <param name="settings">What the session is about.</param>
    /// <param name="utc">Start of the session.</param>
    /// <returns>Null when the elements cannot be used or no pass comes within <see cref="HorizonDays"/>.</returns>
    public static SkyPlan? For(SessionSettings settings, DateTimeOffset utc)
    {
        if (settings.Sky is { } sky)
        {
            return sky.IsUsable() ? Of(new InterpolatedTrack(sky), sky.Epoch, sky.Pass, settings) : null;
        }

        if (settings.Elements is not { } elements || Sgp4.Validate(elements) is not null)
        {
            return null;
        }

        SatelliteTrack track = new(new Sgp4(elements), settings.Station);
        return PassSearch.Next(track, settings.NotBefore is { } least && least > utc ? least : utc, HorizonDays, settings.MinimumElevation, settings.Horizon()) is { } pass
            ? Of(new InterpolatedTrack(track), elements.EpochUtc, pass, settings)
            : null;
    }

    /// <summary>Plans a known pass.</summary>
    /// <param name="track">The satellite over the station.</param>
    /// <param name="epoch">Epoch of the elements, UTC.</param>
    /// <param name="pass">The pass.</param>
    /// <param name="settings">Dish, carrier and allowed loss.</param>
    public static SkyPlan Of(ITrack track, DateTimeOffset epoch, Pass pass, SessionSettings settings)
    {
        Beam beam = Beam.Of(settings.DishDiameterMetres, settings.Downlink);
        ImmutableArray<PassMoment> path = HoldPlan.Sample(track, pass.Aos.Utc, pass.Los.Utc, HoldPlan.Step);
        ImmutableArray<PassMoment> plot = HoldPlan.Sample(track, pass.Aos.Utc, pass.Los.Utc, pass.Duration / PlotSamples);
        ImmutableArray<Hold> holds = HoldPlan.Make(path.AsSpan(), beam, settings.AllowedLoss);
        SunPath? sun = path.IsEmpty || settings.Sky is not null ? null : new SunPath(settings.Station, path, beam.HalfPowerWidth);
        if (settings.Sun != SunRule.Skip || sun is not { IsNear: true })
        {
            return new SkyPlan(track, epoch, pass, plot, path, holds, sun);
        }

        SunAvoidance avoids = new(sun.Place, beam.HalfPowerWidth);
        return new SkyPlan(track, epoch, pass, plot, path, avoids.Apply(holds, path, beam), sun, avoids);
    }

    /// <summary>The sky at an instant, UTC.</summary>
    public SkyNow At(DateTimeOffset utc)
    {
        PassPhase phase = PhaseAt(utc);
        DateTimeOffset next = phase switch
        {
            PassPhase.Over => utc,
            PassPhase.Sinking => Pass.Los.Utc,
            PassPhase.Climbing => Pass.Tca.Utc,
            _ => Pass.Aos.Utc,
        };
        TimeSpan age = utc - Epoch;
        ImmutableArray<LookAngles> ahead = [.. SecondsAhead.Select(s => Track.At(utc.AddSeconds(s))).OfType<LookAngles>()];
        return new SkyNow(Pass, Track.At(utc), phase, next - utc, age, AlongTrackKm(age), Plot, ahead, Holds, Sun?.Now(utc, _skipped));
    }

    private readonly SkippedHolds? _skipped = SkippedHolds.Of(Holds);

    private PassPhase PhaseAt(DateTimeOffset utc) =>
        utc >= Pass.Los.Utc ? PassPhase.Over
        : utc >= Pass.Tca.Utc ? PassPhase.Sinking
        : utc >= Pass.Aos.Utc ? PassPhase.Climbing
        : utc >= Pass.Aos.Utc - ReadyBefore ? PassPhase.Ready
        : PassPhase.Waiting;

    /// <summary>What an age usually means along the track, high end; 1 km at the epoch itself (common practice, no source).</summary>
    private static double AlongTrackKm(TimeSpan age) => Math.Max(1.0, ElementAge.HighKmPerDay * Math.Abs(age.TotalDays));
}
