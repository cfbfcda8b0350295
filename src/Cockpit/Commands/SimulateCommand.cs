using System.CommandLine;

namespace Cockpit.Commands;

/// <summary>cockpit simulate: stands in for what is not at hand.</summary>
public static class SimulateCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TimeProvider clock) =>
        new("simulate", "Stand in for a receiver's program, to try the cockpit without one")
        {
            SimulateSignalCommand.Create(clock),
            SimulatePointingCommand.Create(clock),
            SimulateIqCommand.Create(clock),
            SimulateSessionCommand.Create(clock),
        };
}
