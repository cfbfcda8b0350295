using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Sound;

public sealed class SessionSoundTests
{
    [Fact]
    public async Task What_was_heard_live_can_be_written_again_from_the_session()
    {
        using CockpitProcess program = new();
        string heard = Path.Combine(program.Folder, "heard.wav");
        string again = Path.Combine(program.Folder, "again.wav");
        (int exit, _, string error) = await program.RunAsync("--plain", "--stop-after", "13s", "--sessions", program.Sessions, "--sound", "wav:" + heard);
        Assert.True(exit == 0, error);
        string session = Assert.Single(Directory.GetDirectories(program.Sessions));
        (exit, string cues, error) = await program.RunAsync("cue", "--session", session, "--sound", "wav:" + again);
        Assert.True(exit == 0, error);

        List<int> live = WavFile.Read(heard).Onsets();
        List<int> offline = WavFile.Read(again).Onsets();
        Assert.NotEmpty(live);
        Assert.Equal(live.Count, offline.Count);
        Assert.Equal(cues.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length, offline.Count);

        // The file begins when the sound is opened, not when the session is; what lies between two sounds is the same.
        for (int i = 1; i < live.Count; i++)
        {
            Assert.Equal((offline[i] - offline[0]) / 48000.0, (live[i] - live[0]) / 48000.0, 0.3);
        }
    }

    [Fact]
    public async Task A_session_that_is_not_there_gets_one_sentence()
    {
        using CockpitProcess program = new();
        (int exit, string output, string error) = await program.RunAsync("cue", "--session", "nowhere", "--sound", "wav:x.wav");
        Assert.Equal((2, ""), (exit, output));
        Assert.StartsWith("nowhere: ", Assert.Single(error.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_session_without_a_file_to_write_to_gets_one_sentence()
    {
        using CockpitProcess program = new();
        (int exit, string output, string error) = await program.RunAsync("cue", "--session", "nowhere");
        Assert.Equal((2, ""), (exit, output));
        Assert.StartsWith("--session writes a file: ", Assert.Single(error.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }
}
