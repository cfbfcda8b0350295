using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Sound;

public sealed class SpokenWordsTests
{
    [SpeechFact]
    public async Task A_move_is_spoken_and_the_clips_are_made_only_once()
    {
        using CueProcess cue = new();
        string[] words = ["--error", "-14,6", "--voice", "words", "--sound", "wav:out.wav"];
        (int exit, string output, string error) = await cue.RunAsync(words);
        Assert.Equal((0, "left 14, up 6\n", "sound: file out.wav\n"), (exit, output.ReplaceLineEndings("\n"), error.ReplaceLineEndings("\n")));
        WavFile wav = WavFile.Read(Path.Combine(cue.Home, "out.wav"));
        double sounding = wav.Samples.Count(s => Math.Abs(s) > 0.003f) / 2.0 / 48000.0;
        Assert.InRange(sounding, 0.7, 2.0);
        Assert.InRange(wav.Samples.Max(Math.Abs), 0.1f, 0.75f);

        FileInfo[] clips = Clips(cue);
        Assert.InRange(clips.Length, 40, 60);
        await cue.RunAsync(words);
        Assert.Equal(clips.Select(c => (c.Name, c.LastWriteTimeUtc)), Clips(cue).Select(c => (c.Name, c.LastWriteTimeUtc)));
    }

    private static FileInfo[] Clips(CueProcess cue) =>
        [.. new DirectoryInfo(cue.Home).GetFiles("*.wav", SearchOption.AllDirectories).Where(f => f.DirectoryName!.EndsWith("espeak-ng", StringComparison.Ordinal)).OrderBy(f => f.Name, StringComparer.Ordinal)];
}
