using System.Collections.Immutable;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Desk;

/// <summary>Of several clocks that this computer's was compared with the least doubtful counts; what was corrected already is not told again. Pure.</summary>
internal static class ClockRules
{
    /// <summary>More than these are not remembered; there are three kinds.</summary>
    private const int Most = 8;

    public static DeskMemory Compared(DeskMemory memory, string against, TimeSpan behind, TimeSpan doubt)
    {
        ImmutableArray<ClockNow> others = memory.Clocks.RemoveAll(clock => string.Equals(clock.Against, against, StringComparison.Ordinal));
        return Chosen(memory with { Clocks = [new ClockNow(against, behind, doubt), .. others.Take(Most - 1)] });
    }

    public static DeskMemory Corrected(DeskMemory memory, ClockCorrected happened) => Chosen(memory with { Corrected = memory.Corrected + happened.Change });

    private static DeskMemory Chosen(DeskMemory memory) => memory with
    {
        Now = memory.Now with { Clock = memory.Clocks.MinBy(clock => clock.Doubt) is { } best ? best with { Behind = best.Behind - memory.Corrected } : null },
    };
}
