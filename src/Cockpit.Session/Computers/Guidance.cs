using Cockpit.Core.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>What radio side and aim remember together.</summary>
/// <param name="Link">The radio side.</param>
/// <param name="Aim">The aim.</param>
public sealed record GuidanceMemory(LinkMemory Link, AimMemory Aim)
{
    /// <summary>Before the first event.</summary>
    public static GuidanceMemory Empty { get; } = new(LinkMemory.Empty, AimMemory.Empty);
}

/// <summary>One step of radio side and aim in their order: the level first, since the aim judges marks by it.</summary>
/// <param name="Memory">The memory after the event.</param>
/// <param name="Link">The radio side as seen.</param>
/// <param name="Aim">The aim as seen.</param>
public sealed record Guidance(GuidanceMemory Memory, LinkNow Link, AimNow Aim)
{
    /// <summary>Folds one event and derives what is seen after it.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="settings">What the session is about.</param>
    /// <param name="sky">Where the satellite is at the event; null without a pass.</param>
    /// <param name="track">Its path, any instant; null without a pass.</param>
    /// <param name="envelope">The event.</param>
    public static Guidance Step(GuidanceMemory memory, SessionSettings settings, SkyNow? sky, ITrack? track, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(envelope);
        LinkContext before = new(settings, sky, track, memory.Aim.GainDb);
        LinkMemory link = LinkComputer.Next(memory.Link, before, envelope);
        AimContext context = new(settings, sky, track, LinkComputer.Derive(link, before), envelope.Utc);
        AimMemory aim = AimComputer.Next(memory.Aim, context, envelope);

        // A mark ties the scale at once, so the expectation is derived after it.
        LinkNow seen = aim.GainDb == before.GainDb
            ? context.Link
            : context.Link with { ExpectedDb = ExpectedLevel.Db(settings, sky?.Now, link.Quantity, aim.GainDb) };
        return new Guidance(new GuidanceMemory(link, aim), seen, AimComputer.Derive(aim, context with { Link = seen }));
    }
}
