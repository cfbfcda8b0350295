using System.Collections.Immutable;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Checks;

/// <summary>What can be otherwise than the guidance thinks, each against the base.</summary>
public static class StressRows
{
    /// <summary>Every case: its words, and what it changes.</summary>
    public static ImmutableArray<(string Label, Func<Trial, Trial> Change)> All { get; } =
    [
        ("fading x2", t => t with { World = t.World with { FadingFactor = 2.0 } }),
        ("offset +6 dB", t => t with { World = t.World with { OffsetDb = 6.0 } }),
        ("offset -6 dB", t => t with { World = t.World with { OffsetDb = -6.0 } }),
        ("relative level", t => t with { World = t.World with { RelativeLevelOnly = true } }),
        ("beam x0.8", t => t with { World = t.World with { BeamFactor = 0.8 } }),
        ("beam x1.25", t => t with { World = t.World with { BeamFactor = 1.25 } }),
        ("range law 0.5", t => t with { World = t.World with { RangeLaw = 0.5, BudgetLaw = false } }),
        ("range law 1.0", t => t with { World = t.World with { RangeLaw = 1.0, BudgetLaw = false } }),
        ("10 s late", t => t with { World = t.World with { ElementsLateSeconds = 10.0 } }),
        ("6 dB for 20 s", t => t with { World = t.World with { ObstructionDb = 6.0, ObstructionSeconds = 20.0 } }),
        ("no feed 20 s", t => t with { World = t.World with { DropOutSeconds = 20.0 } }),
        ("10 % reversed", t => t with { Skill = t.Skill with { WrongWay = 0.1 } }),
        ("1/3 ignored", t => t with { Skill = t.Skill with { Lapse = 1.0 / 3.0 } }),
        ("no keys", t => t with { Skill = t.Skill with { ConfirmShare = 0.0 } }),
        ("compass sd 20", t => t with { Skill = t.Skill with { CompassDegrees = 20.0 } }),
        ("no compass", t => t with { Skill = t.Skill with { HasCompass = false } }),
    ];
}
