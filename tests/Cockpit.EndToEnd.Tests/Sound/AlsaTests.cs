using System.Globalization;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.State;
using Cockpit.Tests.Sound;
using Xunit.Abstractions;

namespace Cockpit.EndToEnd.Tests.Sound;

/// <summary>The whole way of a word: command, voice, mixer, libasound, and what comes out measured in a WAV file.</summary>
public sealed class AlsaTests(ITestOutputHelper log)
{
    [SoundLibraryFact]
    public async Task A_word_through_the_sound_library_is_understood_and_comes_within_a_tenth_of_a_second()
    {
        using CueProcess cue = new();
        cue.ConfigureFile();
        (int exit, string output, string error) = await cue.RunAsync("--error", "-7,4", "--times", "6", "--timing");
        Assert.Equal((0, "sound: ALSA default\n"), (exit, error.ReplaceLineEndings("\n")));

        WavFile wav = WavFile.Read(cue.Wav);
        Assert.Equal((48000, 2, 16), (wav.Rate, wav.Channels, wav.Bits));
        List<int> onsets = wav.Onsets();
        double[] given = Numbers(output, "given");
        Assert.Equal(6, given.Length);
        Assert.Equal(6, onsets.Count);
        foreach (int onset in onsets)
        {
            for (int ear = 0; ear < 2; ear++)
            {
                Assert.Equal(new MoveMeaning(-2, 1, false), WordDecoder.Decode(wav.Channel(ear, onset, 48000 * 400 / 1000)));
            }

            List<Ear.Note> notes = Ear.Notes(wav.Channel(0, onset, 48000 * 400 / 1000));
            Assert.Equal(660.0, notes[0].PitchHz, 4.0);
            Assert.Equal(660.0, notes[1].PitchHz, 4.0);
            Assert.Equal(831.6, notes[2].PitchHz, 2.0);
            Assert.Equal(100.0, notes[1].StartMs - notes[0].StartMs, 4.0);
        }

        // Sample s is due s / 48000 s after the first block, plus what the stream has lost by stalls up to the end of the word.
        double[] late = Numbers(output, "late");
        double[] latencies = [.. onsets.Select((onset, i) => 1000.0 * ((onset / 48000.0) + late[i] - given[i])).Order()];
        log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"cue to first changed sample, ms: {string.Join(' ', latencies.Select(l => l.ToString("0.0", CultureInfo.InvariantCulture)))}; stalls {late[^1] * 1000:0.0}"));
        Assert.InRange(latencies[0], -1.0, 100.0);
        Assert.InRange(latencies[latencies.Length / 2], -1.0, 100.0);
    }

    [SoundLibraryFact]
    public async Task Without_a_device_the_bell_rings_and_one_sentence_says_so()
    {
        using CueProcess cue = new();
        cue.Configure("pcm.!default { type hw card 31 }");
        (int exit, string output, string error) = await cue.RunAsync("--error", "7,0");
        Assert.Equal(1, exit);
        Assert.Equal("\aright 7\n", output.ReplaceLineEndings("\n"));
        string sentence = Assert.Single(error.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n'));
        Assert.StartsWith("sound: bell instead of the device, because no sound device: ", sentence, StringComparison.Ordinal);
    }

    private static double[] Numbers(string output, string word) =>
    [
        .. output.Split('\n')
            .Where(line => line.StartsWith(word + ' ', StringComparison.Ordinal))
            .Select(line => double.Parse(line.Split(' ')[1], CultureInfo.InvariantCulture)),
    ];
}
