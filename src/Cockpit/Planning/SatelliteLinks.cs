using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;

namespace Cockpit.Planning;

/// <summary>What is received of which satellite: its first downlink, with the dish that all have in common.</summary>
/// <param name="common">Dish, amplifier, and what counts for a satellite without a downlink.</param>
/// <param name="downlinks">The downlinks, in the order in which they are preferred.</param>
public sealed class SatelliteLinks(LinkModel common, ImmutableArray<Downlink> downlinks)
{
    /// <summary>The downlinks of a satellite, the preferred one first.</summary>
    /// <param name="elements">The satellite.</param>
    /// <returns>Those under its number or its whole name; where there are none, those under a part of its name.</returns>
    public ImmutableArray<Downlink> DownlinksOf(ElementSet elements)
    {
        ArgumentNullException.ThrowIfNull(elements);
        ImmutableArray<Downlink> own = [.. downlinks.Where(one => IsNumber(one.Satellite, elements) || string.Equals(one.Satellite, elements.Name.Trim(), StringComparison.OrdinalIgnoreCase))];
        return own.IsEmpty ? [.. downlinks.Where(one => elements.Name.Contains(one.Satellite, StringComparison.OrdinalIgnoreCase))] : own;
    }

    /// <summary>The link of a satellite.</summary>
    /// <param name="elements">The satellite.</param>
    public LinkModel Of(ElementSet elements) => DownlinksOf(elements) is [var first, ..]
        ? common with { Carrier = first.Carrier, Service = first.Service ?? common.Service }
        : common;

    /// <summary>The downlinks that belong to none of some satellites: their names are mistyped, most likely.</summary>
    /// <param name="satellites">The satellites.</param>
    public ImmutableArray<Downlink> Without(IReadOnlyCollection<ElementSet> satellites) =>
        downlinks.RemoveRange([.. satellites.SelectMany(one => DownlinksOf(one)).Distinct()]);

    private static bool IsNumber(string text, ElementSet elements) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number == elements.CatalogNumber;
}
