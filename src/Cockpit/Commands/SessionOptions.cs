using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Speakers;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options that every command with a running session takes.</summary>
public sealed class SessionOptions
{
    /// <summary>--sessions DIR.</summary>
    public Option<string> Sessions { get; } = new("--sessions")
    {
        HelpName = "DIR",
        Description = "Folder that holds the sessions",
        DefaultValueFactory = _ => "sessions",
    };

    /// <summary>--sound.</summary>
    public Option<string> Sound { get; } = MakeSound();

    /// <summary>--theme NAME.</summary>
    public Option<string> Theme { get; } = new("--theme")
    {
        HelpName = "NAME",
        Description = "Colours: dusk, night, day, mono, or a file of the themes folder; key N changes them",
        DefaultValueFactory = _ => "dusk",
    };

    /// <summary>--plain.</summary>
    public Option<bool> Plain { get; } = new("--plain") { Description = "One line a second on standard output in place of the screen" };

    /// <summary>--measure.</summary>
    public Option<bool> Measure { get; } = new("--measure") { Description = "Say at the end what the run cost: first paint, processor, memory, latency" };

    /// <summary>--digest.</summary>
    public Option<bool> Digest { get; } = new("--digest") { Description = "Say at the end the fingerprint of all snapshots, to compare with a replay" };

    /// <summary>--stop-after SPAN.</summary>
    public Option<TimeSpan?> StopAfter { get; } =
        CommonOptions.Value("--stop-after", "SPAN", "End by itself after this real time, like 90s", SpanText.Read);

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        ArgumentNullException.ThrowIfNull(command);
        foreach (Option option in new Option[] { Sessions, Sound, Theme, Plain, Measure, Digest, StopAfter })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>A number within limits, for instance a speed or a diameter.</summary>
    public static Option<double?> Number(string name, string helpName, string description, double least, double most, string unit) =>
        CommonOptions.Value(name, helpName, description, (text, source) => ReadNumber(text, source, least, most, unit));

    private static Parsed<double> ReadNumber(string text, string source, double least, double most, string unit) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && number >= least && number <= most
            ? number
            : new ParseError(source, 0, 0, string.Create(CultureInfo.InvariantCulture, $"{Quoted.Of(text)} is out of range; give a number from {least} to {most}{unit}"));

    private static Option<string> MakeSound()
    {
        Option<string> sound = new("--sound")
        {
            HelpName = SoundChoice.Grammar,
            Description = "Where the cues are heard",
            DefaultValueFactory = _ => "auto",
        };
        sound.Validators.Add(result =>
        {
            string text = result.GetValueOrDefault<string>() ?? "";
            if (SoundChoice.Read(text, "--sound").Error is { } error)
            {
                result.AddError(error.ToString());
            }
        });
        return sound;
    }
}
