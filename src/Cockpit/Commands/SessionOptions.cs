using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Devices.Speakers;
using Cockpit.Screen.Views;
using Cockpit.Session.Computers.Desk;
using Cockpit.Session.Events;
using Cockpit.Settings;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>The options that every command with a running session takes.</summary>
public sealed class SessionOptions
{
    /// <summary>--sessions DIR.</summary>
    public Option<string> Sessions { get; } = new("--sessions")
    {
        HelpName = "DIR",
        Description = "Folder that holds the sessions",
        DefaultValueFactory = _ => CockpitSettings.Usual.SessionsFolder,
    };

    /// <summary>--sound.</summary>
    public Option<SoundChoice?> Sound { get; } = CommonOptions.Value("--sound", SoundChoice.Grammar, "Where the cues are heard; auto where missing", SoundChoice.Read);

    /// <summary>--volume DB.</summary>
    public Option<double?> Volume { get; } = CommonOptions.Number(
        "--volume", "DB", "Loudness at the start against the usual one, in dB; keys + and - change it", DeskComputer.SoftestDb, DeskComputer.LoudestDb);

    /// <summary>--voice tones|words.</summary>
    public Option<string> Voice { get; } = VoiceOption();

    /// <summary>--theme NAME.</summary>
    public Option<string> Theme { get; } = new("--theme")
    {
        HelpName = "NAME",
        Description = "Colours: dusk, night, day, mono, or a file of the themes folder; key N changes them",
        DefaultValueFactory = _ => CockpitSettings.Usual.Theme,
    };

    /// <summary>--drawing auto|unicode|ascii.</summary>
    public Option<string> Drawing { get; } = DrawingOption();

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
        foreach (Option option in new Option[] { Sessions, Sound, Volume, Voice, Theme, Drawing, Plain, Measure, Digest, StopAfter })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>What these options ask for.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="settings">What the session is about.</param>
    /// <param name="startUtc">UTC at which its clock starts.</param>
    public SessionPlan Read(ParseResult parsed, SessionSettings settings, DateTimeOffset startUtc)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        SpeechClips? speech = SpeechOf(parsed, Voice);
        return new SessionPlan
        {
            Settings = settings with { SpokenWords = speech is not null, VolumeDb = parsed.GetValue(Volume) ?? 0.0 },
            Speech = speech,
            StartUtc = startUtc,
            SessionsFolder = parsed.GetRequiredValue(Sessions),
            Sound = parsed.GetValue(Sound) ?? CockpitSettings.Usual.Sound,
            Theme = parsed.GetRequiredValue(Theme),
            Drawing = DrawingOf(parsed, Drawing),
            Plain = parsed.GetValue(Plain),
            Measure = parsed.GetValue(Measure),
            Digest = parsed.GetValue(Digest),
            EndAfter = parsed.GetValue(StopAfter),
        };
    }

    /// <summary>--voice tones|words.</summary>
    internal static Option<string> VoiceOption()
    {
        Option<string> voice = new("--voice")
        {
            HelpName = "tones|words",
            Description = "How moves are said: in tones, or in words spoken by the system's speech program (made once, before the pass, and kept)",
            DefaultValueFactory = _ => "tones",
        };
        voice.AcceptOnlyFromAmong("tones", "words");
        return voice;
    }

    /// <summary>--drawing auto|unicode|ascii.</summary>
    internal static Option<string> DrawingOption()
    {
        Option<string> drawing = new("--drawing")
        {
            HelpName = "auto|unicode|ascii",
            Description = "What the screen is drawn with; auto: ascii where the locale is not UTF-8 and on the Linux console, whose letters have no plots",
            DefaultValueFactory = _ => "auto",
        };
        drawing.AcceptOnlyFromAmong("auto", "unicode", "ascii");
        return drawing;
    }

    /// <summary>What it asks for.</summary>
    internal static Drawing DrawingOf(ParseResult parsed, Option<string> option) => parsed.GetValue(option) switch
    {
        "unicode" => Screen.Views.Drawing.Unicode,
        "ascii" => Screen.Views.Drawing.Ascii,
        _ => Screen.Views.Drawing.Auto,
    };

    /// <summary>The spoken words that are asked for; where there are none a sentence says why, and the tones stay.</summary>
    internal static SpeechClips? SpeechOf(ParseResult parsed, Option<string> voice)
    {
        if (!string.Equals(parsed.GetValue(voice), "words", StringComparison.Ordinal)) { return null; }

        if (SpeechCache.Open(SpeechCache.UsualFolder()).Try(out SpeechClips? clips, out ParseError? trouble)) { return clips; }

        parsed.InvocationConfiguration.Error.WriteLine(trouble.ToString());
        return null;
    }
}
