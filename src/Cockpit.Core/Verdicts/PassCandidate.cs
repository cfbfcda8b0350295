using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>A pass that one could go out for.</summary>
/// <param name="Satellite">Name of the satellite.</param>
/// <param name="CatalogNumber">Its catalogue number.</param>
/// <param name="Pass">When and where.</param>
/// <param name="Track">The satellite over the station.</param>
/// <param name="ElementAge">How old its elements are at culmination.</param>
public sealed record PassCandidate(string Satellite, int CatalogNumber, Pass Pass, ITrack Track, ElementAge ElementAge);

/// <summary>What a pass is judged for.</summary>
public sealed record VerdictSettings
{
    /// <summary>Where the dish stands.</summary>
    public required Site Site { get; init; }

    /// <summary>Dish, service, carrier, transmitter.</summary>
    public LinkModel Link { get; init; } = new();

    /// <summary>Pointing loss that a hold may cost at its edges.</summary>
    public Decibels AllowedLoss { get; init; } = HoldPlan.UsualLoss;

    /// <summary>Time that one needs between two passes.</summary>
    public TimeSpan TurnAround { get; init; } = TimeSpan.FromMinutes(2);
}
