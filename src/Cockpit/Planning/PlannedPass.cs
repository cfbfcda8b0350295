using System.Collections.Immutable;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

/// <summary>A pass that is worth going out for, with all that is needed to fly it.</summary>
/// <param name="Verdict">What comes with it; clashes named.</param>
/// <param name="Elements">The newest elements of its satellite.</param>
/// <param name="Link">Dish, carrier and service that it was judged with.</param>
/// <param name="Downlinks">What the satellite sends, the one it was judged with first; empty where nobody said.</param>
public sealed record PlannedPass(PassVerdict Verdict, ElementSet Elements, LinkModel Link, ImmutableArray<Downlink> Downlinks)
{
    /// <summary>When and where.</summary>
    public Pass Pass => Verdict.Pass;

    /// <summary>Name of the satellite.</summary>
    public string Satellite => Elements.Name.Trim();
}

/// <summary>What comes over the station in a span.</summary>
/// <param name="Worth">The passes that are worth something, the best first.</param>
/// <param name="Weak">How many more are too weak for the dish.</param>
public sealed record PassesAhead(ImmutableArray<PlannedPass> Worth, int Weak)
{
    /// <summary>The first that begins at an instant or later and has at least a word; null where there is none.</summary>
    /// <param name="from">The instant, UTC.</param>
    /// <param name="least">The least verdict that counts.</param>
    public PlannedPass? NextFrom(DateTimeOffset from, VerdictWord least = VerdictWord.Fair) => Worth
        .Where(one => one.Pass.Aos.Utc >= from && one.Verdict.Word >= least)
        .OrderBy(one => one.Pass.Aos.Utc)
        .FirstOrDefault();
}
