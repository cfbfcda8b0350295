using System.CommandLine;
using System.Globalization;
using Cockpit.Checks.Voice;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Commands;

/// <summary>cockpit check voice: what a listener understands who is given the sound of a pass and nothing else.</summary>
public static class CheckVoiceCommand
{
    private const double WantedBoth = 0.98;
    private const double WantedOne = 0.95;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> passes = CommonOptions.Whole("--passes", "N", "Simulated passes in which things go wrong, 3 where missing", 0, 1000);
        Option<long?> rounds = CommonOptions.Whole("--words", "N", "How often each of the 68 words comes in the random row, 5 where missing", 0, 1000);
        Option<double?> noise = CommonOptions.Number("--noise", "DB", "White noise in each ear, dB against the word; none where missing", -60.0, 20.0);
        Option<string> session = new("--session") { HelpName = "SESSION", Description = "A session of the past in place of simulated passes" };
        Command command = new(
            "voice",
            """
            Render what passes sound like and let an automatic listener, which is given the samples only, write down each move word: side, height,
            how far, how urgent. A word counts only when all of it was understood. Wanted: 98 % with two ears, 95 % with one.

            Example:
              cockpit check voice --passes 10 --noise -6
            """)
        {
            passes, rounds, noise, session,
        };
        command.SetAction(parsed =>
        {
            TextWriter output = parsed.InvocationConfiguration.Output;
            double? noiseDb = parsed.GetValue(noise);
            int times = (int)(parsed.GetValue(rounds) ?? 5);
            bool good = times == 0 || Print(output, "random words", VoiceTrial.Random(1, times, noiseDb));
            if (parsed.GetValue(session) is not { } path)
            {
                return Passes(output, (int)(parsed.GetValue(passes) ?? 3), noiseDb) && good ? 0 : CommandRoot.Failed;
            }

            if (!Recording.ReadAll(path).Try(out Recording? recording, out ParseError? error))
            {
                parsed.InvocationConfiguration.Error.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            return Print(output, "the session", VoiceTrial.Of(recording.Envelopes, noiseDb, output.WriteLine)) && good ? 0 : CommandRoot.Failed;
        });
        return command;
    }

    private static bool Passes(TextWriter output, int count, double? noiseDb)
    {
        VoiceScores sum = default;
        for (int i = 0; i < count; i++) { sum += VoiceTrial.Of(FaultyPass.Fly((ulong)i).Envelopes, noiseDb, output.WriteLine); }

        return count == 0 || Print(output, FormattableString.Invariant($"{count} passes"), sum);
    }

    private static bool Print(TextWriter output, string what, VoiceScores scores)
    {
        output.WriteLine($"{what,-14}{"words",8}{"understood",12}{"the way",10}{"missed",8}{"imagined",10}");
        Row("two ears", scores.Both);
        Row("left alone", scores.Left);
        Row("right alone", scores.Right);
        return scores.Both.Share >= WantedBoth && Math.Min(scores.Left.Share, scores.Right.Share) >= WantedOne;

        void Row(string ears, VoiceScore score) => output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"  {ears,-12}{score.Words,8}{100.0 * score.Share,10:0.0} %{(score.Words == 0 ? 100.0 : 100.0 * score.Sides / score.Words),8:0.0} %{score.Missed,8}{score.Imagined,10}"));
    }
}
