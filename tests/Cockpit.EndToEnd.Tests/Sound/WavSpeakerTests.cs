using System.Diagnostics;
using Cockpit.Session.State;
using Cockpit.Tests.Sound;

namespace Cockpit.EndToEnd.Tests.Sound;

public sealed class WavSpeakerTests
{
    [Fact]
    public async Task A_word_into_a_file_is_understood()
    {
        using CueProcess cue = new();
        (int exit, string output, string error) = await cue.RunAsync("--error", "7,-9", "--sound", "wav:out.wav");
        Assert.Equal((0, "right 7, down 9\n", "sound: file out.wav\n"), (exit, output.ReplaceLineEndings("\n"), error.ReplaceLineEndings("\n")));
        WavFile wav = WavFile.Read(Path.Combine(cue.Home, "out.wav"));
        int onset = Assert.Single(wav.Onsets());
        Assert.Equal(new MoveMeaning(2, -2, false), WordDecoder.Decode(wav.Channel(1, onset, 48000 * 400 / 1000)));
    }

    [Fact]
    public async Task A_program_that_is_killed_leaves_a_file_that_opens()
    {
        using CueProcess cue = new();
        string path = Path.Combine(cue.Home, "out.wav");
        using Process process = cue.Start("--all", "--sound", "wav:out.wav");
        for (int line = 0; line < 5; line++) { Assert.NotNull(await process.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(30))); }

        process.Kill();
        await process.WaitForExitAsync();
        WavFile wav = WavFile.Read(path);
        long missing = new FileInfo(path).Length - 44 - wav.DataBytes;
        Assert.InRange(missing, 0, 48000 * 4);
        Assert.True(wav.Onsets().Count >= 2);
    }

    [Fact]
    public async Task A_file_that_cannot_be_written_gets_one_sentence_and_the_bell()
    {
        using CueProcess cue = new();
        (int exit, string output, string error) = await cue.RunAsync("--error", "7,0", "--sound", "wav:no/such/folder/out.wav");
        Assert.Equal((1, "\aright 7\n"), (exit, output.ReplaceLineEndings("\n")));
        Assert.StartsWith("sound: bell instead of the device, because cannot write the sound to no/such/folder/out.wav: ", Assert.Single(error.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--error", "7", "--error: '7' is not two numbers of degrees like 7,-3; see cockpit cue --help")]
    [InlineData("--sound", "loud", "--sound: \"loud\" is no place for sound; write one of auto|off|bell|wav:PATH; see cockpit cue --help")]
    [InlineData("--volume", "40", "--volume: '40' is not a number from -30 to 6; see cockpit cue --help")]
    [InlineData("--times", "0", "--times: '0' is not a whole number from 1 to 1000; see cockpit cue --help")]
    public async Task Wrong_words_get_one_sentence(string option, string value, string sentence)
    {
        using CueProcess cue = new();
        (int exit, string output, string error) = await cue.RunAsync(option, value);
        Assert.Equal((2, "", sentence), (exit, output, error.TrimEnd()));
    }
}
