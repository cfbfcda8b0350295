using System.CommandLine;
using Cockpit.Settings.Stored;

namespace Cockpit.Commands;

/// <summary>What a command runs in: where it prints, and the settings that its words were completed from.</summary>
internal sealed class Surroundings : InvocationConfiguration
{
    /// <summary>The settings; null without.</summary>
    public StoredSettings? Settings { get; init; }

    /// <summary>Those of a command line.</summary>
    /// <param name="parsed">The line.</param>
    public static StoredSettings? SettingsOf(ParseResult parsed) => (parsed.InvocationConfiguration as Surroundings)?.Settings;
}
