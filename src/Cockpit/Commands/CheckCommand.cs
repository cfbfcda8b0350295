using System.CommandLine;

namespace Cockpit.Commands;

/// <summary>cockpit check: the parts of the program and its inputs, each tried alone.</summary>
public static class CheckCommand
{
    /// <summary>The command with all its checks.</summary>
    public static Command Create() => new("check", "Try one part of the program, or one input, alone")
    {
        CheckReferenceCommand.Create(),
        CheckFormatsCommand.Create(),
        CheckFramesCommand.Create(),
        CheckGuidanceCommand.Create(),
        CheckLinesCommand.Create(),
        CheckLockCommand.Create(),
        CheckReviewCommand.Create(),
        CheckSessionCommand.Create(),
        CheckSettingsCommand.Create(),
        CheckSignalCommand.Create(),
        CheckTextCommand.Create(),
        CheckVoiceCommand.Create(),
    };
}
