using System.Collections.Immutable;
using Cockpit.Core.Chance;
using Cockpit.Core.Passes;

namespace Cockpit.Session.Rehearsal;

/// <summary>Puts faults that somebody chose into a pass: those of the whole pass or its ends where they belong, the others evenly between.</summary>
internal static class ChosenFaults
{
    private const double FirstSeconds = 90.0;
    private const double LastSeconds = 60.0;

    /// <summary>The faults in their order.</summary>
    /// <param name="pass">The pass.</param>
    /// <param name="kinds">What is to go wrong, in this order.</param>
    /// <param name="chance">How long and how much.</param>
    public static ImmutableArray<Fault> Of(Pass pass, ImmutableArray<FaultKind> kinds, Xoshiro256 chance)
    {
        double Between(double least, double most) => least + ((most - least) * chance.NextUnit());
        double length = pass.Duration.TotalSeconds;
        FaultKind[] passing = [.. kinds.Where(kind => kind is not (FaultKind.NotTransmitting or FaultKind.NotFound or FaultKind.Skyline or FaultKind.Weak))];
        double apart = (length - FirstSeconds - LastSeconds) / Math.Max(1, passing.Length);
        var faults = ImmutableArray.CreateBuilder<Fault>();
        foreach (FaultKind kind in kinds.Except(passing))
        {
            double seconds = Between(30.0, 50.0);
            faults.Add(kind switch
            {
                FaultKind.NotTransmitting => new Fault(kind, -1000.0, 3000.0, 90.0),
                FaultKind.NotFound => new Fault(kind, 0.0, Between(25.0, 40.0), 0.0),
                FaultKind.Skyline => new Fault(kind, length - seconds, seconds + 60.0, Between(15.0, 30.0)),
                _ => new Fault(kind, 0.0, length, 0.0),
            });
        }

        for (int i = 0; i < passing.Length; i++)
        {
            double at = FirstSeconds + (i * apart);
            faults.Add(passing[i] switch
            {
                FaultKind.Late => new Fault(FaultKind.Late, at, Between(13.0, 20.0), 0.0),
                FaultKind.Amount => new Fault(FaultKind.Amount, at, 0.0, Between(2.4, 3.0)),
                FaultKind.Knock => new Fault(FaultKind.Knock, at, 0.0, Between(10.0, 14.0)),
                FaultKind.Fade => new Fault(FaultKind.Fade, at, Between(6.0, 10.0), Between(12.0, 20.0)),
                FaultKind other => new Fault(other, at, Between(8.0, 15.0), 0.0),
            });
        }

        return faults.ToImmutable();
    }
}
