using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Link;
using Cockpit.Core.Sound;
using Cockpit.Core.Units;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Bus;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Cockpit.Settings;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>cockpit cue: hear the sounds, or print their table.</summary>
public static class CueCommand
{
    private static readonly LinkModel Usual = CockpitSettings.Usual.Link;
    private static readonly TimeSpan OpenPatience = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan Before = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan After = TimeSpan.FromMilliseconds(250);

    /// <summary>The command.</summary>
    public static Command Build()
    {
        Option<AimError?> error = CommonOptions.Value("--error", "RIGHT,UP", "Say the move word for this move of the dish, degrees on the sky; left and down are negative", ReadError);
        double usualBeam = Math.Round(Usual.Dish.BeamWidth(Usual.Carrier).Degrees, 1);
        Option<double?> beam = CommonOptions.Number("--beam", "DEG", FormattableString.Invariant($"Half-power beamwidth that small and large are judged by; {usualBeam} where missing"), 0.1, 90.0);
        Option<SoundChoice?> sound = CommonOptions.Value("--sound", SoundChoice.Grammar, "Where to play it; auto where missing", SoundChoice.Read);
        Option<long?> times = CommonOptions.Whole("--times", "N", "Play it so often, once where missing", 1, 1000);
        Option<double?> volume = CommonOptions.Number("--volume", "DB", "Louder or softer than the default, -30 to 6; start low with earphones", Level.SoftestDb, Level.LoudestDb);
        Option<bool> all = new("--all") { Description = "Play every sound, one after another, each with its name" };
        Option<bool> table = new("--table") { Description = "Print the table of sounds and play nothing" };
        Option<string> session = new("--session") { HelpName = "SESSION", Description = "What a session of the past sounded like, into the file that --sound wav:PATH names" };
        Option<string> voice = SessionOptions.VoiceOption();
        Option<bool> timing = new("--timing") { Description = "Print when each was given, seconds of the stream", Hidden = true };

        Command command = new("cue", "Hear the sounds of the voice, or print their table\n\nExamples:\n  cockpit cue --error 7,-3\n  cockpit cue --all\n  cockpit cue --table\n  cockpit cue --session sessions/2026-11-25T101500Z-petrel-2 --sound wav:heard.wav")
        {
            error, beam, sound, times, volume, all, table, session, voice, timing,
        };
        command.SetAction(async (parsed, cancel) =>
        {
            TextWriter output = parsed.InvocationConfiguration.Output;
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (parsed.GetValue(table))
            {
                await PrintTableAsync(output);
                return 0;
            }

            SoundChoice choice = parsed.GetValue(sound) ?? CockpitSettings.Usual.Sound;
            if (parsed.GetValue(session) is { } past)
            {
                if (choice.Place == SoundPlace.File) { return await SessionSound.WriteAsync(past, choice.Path, SessionOptions.SpeechOf(parsed, voice), output, complaints); }

                await complaints.WriteLineAsync("--session writes a file: add --sound wav:PATH; cockpit replay lets one hear it in its own time");
                return CommandRoot.WrongInput;
            }

            List<(string Name, Cue Cue)>? cues = Chosen(parsed.GetValue(error), Angle.FromDegrees(parsed.GetValue(beam) ?? usualBeam), parsed.GetValue(all));
            if (cues is null)
            {
                await complaints.WriteLineAsync("nothing to play: give --error RIGHT,UP, --all, --session or --table; see cockpit cue --help");
                return CommandRoot.WrongInput;
            }

            if (cues.Count == 0)
            {
                await output.WriteLineAsync("silence: the move is too small to be said");
                return 0;
            }

            SpeechClips? speech = SessionOptions.SpeechOf(parsed, voice);
            List<(string Name, Cue Cue)> list = [.. Enumerable.Repeat(cues, (int)(parsed.GetValue(times) ?? 1)).SelectMany(c => c)];
            return await PlayAsync(list, new Voice(TimeProvider.System, speech), speech, choice, parsed.GetValue(volume) ?? 0.0, parsed.GetValue(timing), output, complaints, cancel);
        });
        return command;
    }

    private static List<(string Name, Cue Cue)>? Chosen(AimError? error, Angle beam, bool all)
    {
        if (all) { return [.. SoundTable.Rows.Where(r => r.Cue is not null).Select(r => (r.Name, r.Cue!))]; }

        if (error is not { } move) { return null; }

        return MoveWord.For(move, beam, Mount.Free) is { } word ? [(word.Text, word)] : [];
    }

    private static async Task<int> PlayAsync(
        List<(string Name, Cue Cue)> cues, Voice voice, SpeechClips? speech, SoundChoice choice, double volume, bool timing, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        Reported reported = new();
        await using ISpeaker speaker = SpeakerFactory.Open(choice, voice, reported, () => CleanWriter.Ring(output), TimeProvider.System);
        await reported.FirstAsync(OpenPatience, cancel);
        string first = reported.Sentence;
        await complaints.WriteLineAsync(first);
        foreach ((string name, Cue cue) in cues)
        {
            await Task.Delay(Before, cancel);
            TimeSpan? given = voice.StreamTime;
            voice.Accept(new CuePlan([cue], null, volume));
            await output.WriteLineAsync(timing ? string.Create(CultureInfo.InvariantCulture, $"given {given?.TotalSeconds:0.000000} {name}") : name);
            await Task.Delay(Length(cue) + SpokenLength(speech, cue) + After, cancel);
            if (timing) { await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"late {speaker.Late.TotalSeconds:0.000000}")); }
        }

        // A device may open well and fail at the first sound.
        if (!string.Equals(reported.Sentence, first, StringComparison.Ordinal)) { await complaints.WriteLineAsync(reported.Sentence); }

        return reported.Trouble is null ? 0 : CommandRoot.Failed;
    }

    private static async Task PrintTableAsync(TextWriter output)
    {
        int names = SoundTable.Rows.Max(r => r.Name.Length);
        int notes = SoundTable.Rows.Max(r => r.Notes.Length);
        await output.WriteLineAsync($"{"sound".PadRight(names)}  P  {"notes".PadRight(notes)}  when");
        foreach (SoundRow row in SoundTable.Rows)
        {
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{row.Name.PadRight(names)}  {row.Priority}  {row.Notes.PadRight(notes)}  {row.When}"));
        }
    }

    private static TimeSpan SpokenLength(SpeechClips? speech, Cue cue) =>
        TimeSpan.FromSeconds((speech?.Of(cue).Length ?? 0) / (double)SoundFormat.Rate);

    private static TimeSpan Length(Cue cue) => TimeSpan.FromMilliseconds(cue.Tones.Max(t => t.StartMs + t.LengthMs));

    private static Parsed<AimError> ReadError(string text, string source)
    {
        string[] parts = text.Split(',');
        return parts.Length == 2
            && NumberText.TryRead(parts[0], out double right)
            && NumberText.TryRead(parts[1], out double up)
            && Math.Abs(right) <= 180.0 && Math.Abs(up) <= 180.0
            ? new AimError(Angle.FromDegrees(right), Angle.FromDegrees(up), Angle.FromDegrees(right))
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not two numbers of degrees like 7,-3");
    }

    /// <summary>Takes what the speaker says about itself.</summary>
    private sealed class Reported : IEventSink
    {
        private readonly TaskCompletionSource _first = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private volatile SpeakerChanged? _last;

        public string? Trouble => _last?.Trouble;

        public string Sentence => _last switch
        {
            null => "sound: the device does not answer",
            { Trouble: { } trouble } last => $"sound: {last.Device} instead of the device, because {trouble}",
            { } last => $"sound: {last.Device}",
        };

        public void Publish(string source, SessionEvent sessionEvent)
        {
            if (sessionEvent is not SpeakerChanged changed) { return; }

            _last = changed;
            _first.TrySetResult();
        }

        public async Task FirstAsync(TimeSpan patience, CancellationToken cancel)
        {
            try
            {
                await _first.Task.WaitAsync(patience, cancel);
            }
            catch (TimeoutException)
            {
                return;
            }
        }
    }
}
