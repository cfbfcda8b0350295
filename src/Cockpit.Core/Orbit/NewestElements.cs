using System.Collections.Immutable;
using System.Globalization;

namespace Cockpit.Core.Orbit;

/// <summary>Leaves one element set a satellite.</summary>
public static class NewestElements
{
    /// <summary>The set with the newest epoch of every satellite, in the order in which the satellites first appear.</summary>
    /// <param name="sets">Element sets, doubles included.</param>
    /// <remarks>
    /// A satellite is known by its catalogue number; where that is missing (0) by designator and name. Of two sets with one
    /// epoch the later in the order counts: a catalogue appends its corrections.
    /// </remarks>
    public static ImmutableArray<ElementSet> Of(IEnumerable<ElementSet> sets)
    {
        ArgumentNullException.ThrowIfNull(sets);
        return [.. sets
            .GroupBy(Identity, StringComparer.Ordinal)
            .Select(same => same.Aggregate((best, next) => next.Epoch.MinutesSince(best.Epoch) >= 0.0 ? next : best))];
    }

    private static string Identity(ElementSet set) => set.CatalogNumber > 0
        ? set.CatalogNumber.ToString(CultureInfo.InvariantCulture)
        : $"{set.InternationalDesignator}\n{set.Name}";
}
