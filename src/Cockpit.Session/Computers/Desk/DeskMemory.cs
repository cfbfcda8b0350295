using System.Collections.Immutable;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Desk;

/// <summary>What the desk remembers: sound device, journal, the operator's switches.</summary>
/// <param name="Now">They are what is seen, as they are.</param>
/// <param name="Clocks">What this computer's clock was compared with, the latest of each, as if it had never been corrected.</param>
/// <param name="Corrected">What was added to it since.</param>
/// <param name="FarInARow">Places in a row that were far from the station.</param>
public sealed record DeskMemory(DeskNow Now, ImmutableArray<ClockNow> Clocks, TimeSpan Corrected, int FarInARow)
{
    /// <summary>A desk where nothing has happened.</summary>
    public static DeskMemory Empty { get; } = new(new DeskNow(null, null, null, Muted: false, VolumeDb: 0.0), [], TimeSpan.Zero, 0);
}
