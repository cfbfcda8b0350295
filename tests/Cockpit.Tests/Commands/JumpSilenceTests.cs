using Cockpit.Session.State;
using Cockpit.Wiring;

namespace Cockpit.Tests.Commands;

public sealed class JumpSilenceTests
{
    private static readonly CuePlan Loud = new([new Cue(CueKind.Warning, 1, "recording stopped", [])], new PeakTone(880, 2), -3);

    [Fact]
    public void What_a_jump_plays_is_not_heard_and_what_comes_after_it_is()
    {
        JumpSilence silence = new();
        silence.Played();
        Assert.Equal(Loud, silence.Heard(Loud));
        silence.During(() =>
        {
            silence.Played();
            silence.Played();

            // The fold may be quick enough to answer while the jump still goes on.
            Assert.Empty(silence.Heard(Loud).Started);
        });
        silence.Played();
        CuePlan last = silence.Heard(Loud);
        Assert.Equal((0, null, -3), (last.Started.Length, last.Peak, last.VolumeDb));
        Assert.Equal(Loud, silence.Heard(Loud));
    }
}
