using System.Collections.Immutable;
using Cockpit.Core.Chance;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Session.Rehearsal;

/// <summary>Chooses what goes wrong in a simulated pass: one fault a minute or so, so that each is over before the next.</summary>
internal static class FaultPlan
{
    private const double Apart = 75.0;

    private static readonly FaultKind[] Passing =
    [
        FaultKind.Late, FaultKind.Late, FaultKind.Late, FaultKind.Amount, FaultKind.Amount, FaultKind.Amount, FaultKind.WrongWay, FaultKind.WrongWay,
        FaultKind.Knock, FaultKind.Knock, FaultKind.Fade, FaultKind.Overload, FaultKind.FeedSilent, FaultKind.RecorderStopped,
    ];

    /// <summary>The faults of a pass.</summary>
    public static ImmutableArray<Fault> Of(Pass pass, Xoshiro256 chance)
    {
        double Between(double least, double most) => least + ((most - least) * chance.NextUnit());
        double length = pass.Duration.TotalSeconds;
        var faults = ImmutableArray.CreateBuilder<Fault>();
        double kind = chance.NextUnit();
        if (kind < 0.17)
        {
            return [new Fault(FaultKind.NotTransmitting, -1000.0, 3000.0, 90.0)];
        }

        if (kind < 0.4)
        {
            faults.Add(new Fault(FaultKind.NotFound, 0.0, Between(15.0, 50.0), 0.0));
        }
        else if (kind < 0.6)
        {
            double seconds = Between(20.0, 60.0);
            faults.Add(new Fault(FaultKind.Skyline, length - seconds, seconds + 60.0, Between(15.0, 30.0)));
        }
        else if (kind < 0.75)
        {
            faults.Add(new Fault(FaultKind.Weak, 0.0, length, 0.0));
        }

        for (double at = Between(80.0, 110.0); at < length - 100.0; at += Apart)
        {
            FaultKind next = Passing[(int)(chance.NextUnit() * Passing.Length)];
            faults.Add(next switch
            {
                FaultKind.Late => new Fault(next, at, Between(11.0, 20.0), 0.0),
                FaultKind.Amount => new Fault(next, at, 0.0, chance.NextUnit() < 0.5 ? Between(0.0, 0.3) : Between(2.2, 3.0)),
                FaultKind.Knock => new Fault(next, at, 0.0, Between(8.0, 14.0)),
                FaultKind.Fade => new Fault(next, at, Between(3.0, 10.0), Between(9.0, 20.0)),
                _ => new Fault(next, at, Between(4.0, 15.0), 0.0),
            });
        }

        return faults.ToImmutable();
    }

    /// <summary>What stands in the way, and when.</summary>
    public static ImmutableArray<Obstruction> Obstructions(ImmutableArray<Fault> faults, Pass pass) =>
    [
        .. faults.Where(f => f.Kind is FaultKind.Fade or FaultKind.Skyline or FaultKind.NotTransmitting)
            .Select(f => new Obstruction(pass.Aos.Utc.AddSeconds(f.At), TimeSpan.FromSeconds(f.Seconds), new Decibels(f.Amount))),
    ];
}
