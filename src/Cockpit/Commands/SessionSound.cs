using Cockpit.Devices.Journal;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>What a session of the past sounded like, as a file.</summary>
internal static class SessionSound
{
    /// <summary>Folds the session and writes its sound.</summary>
    /// <param name="session">Folder of the session.</param>
    /// <param name="path">The WAV file.</param>
    /// <param name="speech">Spoken words; null where tones are wanted.</param>
    /// <param name="output">For the list of cues.</param>
    /// <param name="complaints">For everything else.</param>
    /// <returns>The exit code.</returns>
    public static async Task<int> WriteAsync(string session, string path, SpeechClips? speech, TextWriter output, TextWriter complaints)
    {
        if (!Recording.ReadAll(session).Try(out Recording? recording, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        try
        {
            SoundTrack.Write(path, Plans(recording, output), speech);
            return 0;
        }
        catch (SoundDeviceException e)
        {
            await complaints.WriteLineAsync(e.Message);
            return CommandRoot.Failed;
        }
    }

    private static IEnumerable<(TimeSpan At, CuePlan Plan)> Plans(Recording recording, TextWriter output)
    {
        Fold fold = new();
        foreach (Envelope envelope in recording.Envelopes)
        {
            Snapshot snapshot = fold.Step(envelope);

            // A rehearsal that ran faster is heard at the listener's pace.
            TimeSpan at = envelope.Elapsed / (snapshot.Settings?.Speed ?? 1.0);
            foreach (Cue cue in snapshot.Cues.Started)
            {
                output.WriteLine(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{at.TotalSeconds,8:0.00} s  {cue.Text}"));
            }

            yield return (at, snapshot.Cues);
        }
    }
}
