using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Tests.Sound;

public sealed class SpokenWordsTests
{
    private static readonly Angle Beam = Angle.FromDegrees(15.4);

    [Theory]
    [InlineData(-4.0, 6.0, false, "left four up six")]
    [InlineData(14.0, 0.0, false, "right fourteen")]
    [InlineData(-40.0, -21.0, true, "now left forty down twenty one")]
    [InlineData(126.0, 0.0, false, "right one hundred twenty six")]
    [InlineData(100.0, 0.0, false, "right one hundred")]
    public void A_move_falls_into_words(double right, double up, bool pressing, string words)
    {
        AimError move = new(Angle.FromDegrees(right), Angle.FromDegrees(up), Angle.FromDegrees(right));
        Cue cue = MoveWord.For(move, Beam, Mount.Free, pressing)!;
        Assert.Equal(words, string.Join(' ', SpokenCue.Clips(cue)));
        Assert.Equal(SpokenCue.SecondsPerWord * words.Split(' ').Length, SpokenCue.Seconds(cue), 1e-9);
    }

    [Fact]
    public void Everything_that_is_ever_said_is_in_the_vocabulary()
    {
        for (int degrees = 2; degrees <= 180; degrees++)
        {
            Angle pan = Angle.FromDegrees(degrees);
            Cue cue = MoveWord.For(new AimError(pan, Angle.Zero, pan), Beam, Mount.PanTilt, pressing: true)!;
            Assert.All(SpokenCue.Clips(cue), clip => Assert.Contains(clip, SpokenCue.Vocabulary));
        }

        foreach (SoundRow row in SoundTable.Rows)
        {
            if (row.Cue is { } cue) { Assert.All(SpokenCue.Clips(cue), clip => Assert.Contains(clip, SpokenCue.Vocabulary)); }
        }
    }

    [Fact]
    public void Where_no_program_speaks_one_sentence_says_so_and_what_to_do()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cockpit-voice-");
        try
        {
            SpeechProgram none = new("no-such-speech-program", (_, _) => []);
            Assert.False(SpeechCache.Open(folder.FullName, [none]).Try(out _, out ParseError? error));
            Assert.StartsWith("--voice words: there is no no-such-speech-program; ", error.ToString(), StringComparison.Ordinal);
            Assert.EndsWith("The tones stay", error.ToString(), StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData(8000, 1)]
    [InlineData(22050, 1)]
    [InlineData(44100, 2)]
    [InlineData(48000, 1)]
    public void A_clip_of_any_rate_keeps_its_pitch_and_length_and_loses_the_silence_at_its_ends(int rate, int channels)
    {
        float[] clip = SpeechShaper.Read(Wav(rate, channels, hertz: 700.0, seconds: 0.4, silence: 0.3))!;
        Assert.InRange(clip.Length / 48000.0, 0.39, 0.41);
        Assert.Equal(700.0, Ear.Pitch(clip), 1.0);
        Assert.Equal(0.1413, Math.Sqrt(clip.Sum(s => (double)s * s) / clip.Length), 0.01);
        Assert.True(Math.Abs(clip[0]) < 0.01f && Math.Abs(clip[^1]) < 0.01f);
    }

    [Fact]
    public void What_is_no_sound_is_no_clip()
    {
        Assert.Null(SpeechShaper.Read([]));
        Assert.Null(SpeechShaper.Read(new byte[100]));
        Assert.Null(SpeechShaper.Read(Wav(22050, 1, 700.0, seconds: 0.0, silence: 0.1)));
        Assert.Null(SpeechShaper.Read(Wav(22050, 1, 700.0, 0.1, 0.1).AsSpan(0, 40)));
    }

    private static byte[] Wav(int rate, int channels, double hertz, double seconds, double silence)
    {
        int frames = (int)(rate * (seconds + (2 * silence)));
        using MemoryStream stream = new();
        using BinaryWriter writer = new(stream);
        writer.Write("RIFF"u8);
        writer.Write(36 + (2 * channels * frames));
        writer.Write("WAVEfmt "u8);
        writer.Write(16);
        writer.Write((short)1);
        writer.Write((short)channels);
        writer.Write(rate);
        writer.Write(2 * channels * rate);
        writer.Write((short)(2 * channels));
        writer.Write((short)16);
        writer.Write("data"u8);
        writer.Write(2 * channels * frames);
        for (int i = 0; i < frames; i++)
        {
            double t = i / (double)rate;
            bool sounds = t >= silence && t < silence + seconds;
            for (int c = 0; c < channels; c++) { writer.Write((short)(sounds ? 9000.0 * Math.Sin(Math.Tau * hertz * t) : 0.0)); }
        }

        return stream.ToArray();
    }
}
