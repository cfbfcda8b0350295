using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Orbit;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>The sky of one known pass along one track, for runs that need no elements.</summary>
public sealed class PlainSky
{
    private static readonly TimeSpan Ready = TimeSpan.FromSeconds(60);

    private readonly ImmutableArray<PassMoment> _plot;
    private readonly ImmutableArray<Hold> _holds;

    /// <summary>Makes the plan of a pass once.</summary>
    /// <param name="track">The satellite's path.</param>
    /// <param name="pass">Its pass.</param>
    /// <param name="settings">Dish, carrier and allowed loss.</param>
    public PlainSky(ITrack track, Pass pass, SessionSettings settings)
    {
        ArgumentNullException.ThrowIfNull(pass);
        ArgumentNullException.ThrowIfNull(settings);
        Track = track;
        Pass = pass;
        _plot = HoldPlan.Sample(track, pass.Aos.Utc, pass.Los.Utc, TimeSpan.FromSeconds(5));
        ImmutableArray<PassMoment> fine = HoldPlan.Sample(track, pass.Aos.Utc, pass.Los.Utc, HoldPlan.Step);
        _holds = HoldPlan.Make(fine.AsSpan(), Beam.Of(settings.DishDiameterMetres, settings.Downlink), settings.AllowedLoss);
    }

    /// <summary>The satellite's path.</summary>
    public ITrack Track { get; }

    /// <summary>Its pass.</summary>
    public Pass Pass { get; }

    /// <summary>The sky at an instant, UTC.</summary>
    public SkyNow At(DateTimeOffset utc) => new(
        Pass,
        Track.At(utc),
        PhaseAt(utc),
        Max(TimeSpan.Zero, (utc < Pass.Aos.Utc ? Pass.Aos.Utc : utc < Pass.Tca.Utc ? Pass.Tca.Utc : Pass.Los.Utc) - utc),
        TimeSpan.Zero,
        1.0,
        _plot,
        [.. Ahead(utc)],
        _holds);

    private PassPhase PhaseAt(DateTimeOffset utc) =>
        utc < Pass.Aos.Utc - Ready ? PassPhase.Waiting
        : utc < Pass.Aos.Utc ? PassPhase.Ready
        : utc < Pass.Tca.Utc ? PassPhase.Climbing
        : utc < Pass.Los.Utc ? PassPhase.Sinking
        : PassPhase.Over;

    private IEnumerable<LookAngles> Ahead(DateTimeOffset utc)
    {
        for (int seconds = 10; seconds <= 30; seconds += 10)
        {
            if (Track.At(utc.AddSeconds(seconds)) is { } look)
            {
                yield return look;
            }
        }
    }

    private static TimeSpan Max(TimeSpan left, TimeSpan right) => left > right ? left : right;
}
