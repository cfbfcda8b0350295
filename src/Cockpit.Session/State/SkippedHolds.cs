using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>The holds of a plan that are left out for the sun.</summary>
/// <param name="First">Number of the first.</param>
/// <param name="Last">Number of the last.</param>
/// <param name="Nearest">How near the nearest of them would come to the sun.</param>
public sealed record SkippedHolds(int First, int Last, Angle Nearest)
{
    /// <summary>What a plan leaves out; null when nothing.</summary>
    public static SkippedHolds? Of(ImmutableArray<Hold> holds)
    {
        SkippedHolds? all = null;
        foreach (Hold hold in holds)
        {
            if (hold.Skip is { Separation: var apart })
            {
                all = new SkippedHolds(all?.First ?? hold.Number, hold.Number, all is { } before && before.Nearest < apart ? before.Nearest : apart);
            }
        }

        return all;
    }

    /// <summary>In words, like "hold 4 skipped: sun 5 degrees off".</summary>
    public string Words()
    {
        string which = First == Last
            ? string.Create(CultureInfo.InvariantCulture, $"hold {First}")
            : string.Create(CultureInfo.InvariantCulture, $"holds {First} to {Last}");
        return string.Create(CultureInfo.InvariantCulture, $"{which} skipped: sun {Nearest.Degrees:0} degrees off");
    }
}
