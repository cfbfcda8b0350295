using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Desk;

/// <summary>What the desk remembers: sound device, journal, the operator's switches.</summary>
/// <param name="Now">They are what is seen, as they are.</param>
public sealed record DeskMemory(DeskNow Now)
{
    /// <summary>A desk where nothing has happened.</summary>
    public static DeskMemory Empty { get; } = new(new DeskNow(null, null, null, Muted: false, VolumeDb: 0.0));
}
