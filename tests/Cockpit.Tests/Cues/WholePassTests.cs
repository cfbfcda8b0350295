using System.Globalization;
using Cockpit.Session.State;
using Xunit.Abstractions;

namespace Cockpit.Tests.Cues;

public sealed class WholePassTests(ITestOutputHelper log)
{
    private static readonly Lazy<HeardPass> Quiet = new(() => new HeardPass(60).Fly());

    [Theory]
    [InlineData(25)]
    [InlineData(60)]
    [InlineData(85)]
    public void A_quiet_pass_is_mostly_silent_and_each_word_leads_to_the_next_hold(double highest)
    {
        HeardPass pass = new HeardPass(highest).Fly();
        double pulses = pass.Tones.Count * 0.05 / 2.0;   // two steps in a tenth of a second, half of each pulse sounds
        double sounding = pulses + (pass.Heard.Sum(h => h.Cue.Tones.Sum(t => t.LengthMs)) / 1000.0);
        int words = pass.Heard.Count(h => h.Cue.Kind == CueKind.MoveWord);
        log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{highest}°: {pass.DurationSeconds:0} s, {words} words, {pass.Marks} marks, {pass.Heard.Count} cues, worst word {pass.Heard.Max(h => h.WrongB):0.00} B off, sounding {100.0 * sounding / pass.DurationSeconds:0.0} %"));
        Assert.True(sounding < 0.15 * pass.DurationSeconds, $"{sounding:0} of {pass.DurationSeconds:0} s");
        Assert.InRange(pass.Marks, 0, 8);
        Assert.DoesNotContain(pass.Heard, h => h.Cue.Kind is CueKind.Warning or CueKind.Caution);
        Assert.InRange(words - pass.Nudges.Count, 0, pass.Marks);
        Assert.InRange(pass.Nudges.Count, 8, 60);

        // A move that is to tell the side looks beside the satellite on purpose.
        Assert.All(pass.Heard, h => Assert.InRange(h.WrongB, 0.0, h.Aim.Reason is AimReason.Probe or AimReason.Search ? 0.7 : 0.35));
    }

    [Fact]
    public void Nothing_sounds_within_two_seconds_after_a_nudge()
    {
        HeardPass pass = Quiet.Value;
        Assert.NotEmpty(pass.Nudges);
        Assert.All(pass.Nudges, nudge => Assert.DoesNotContain(pass.Heard, h => h.At > nudge && h.At < nudge + 2.0));
    }

    [Fact]
    public void Nudges_that_are_seen_coming_are_ticked_in()
    {
        HeardPass pass = Quiet.Value;
        double[] words = [.. pass.Heard.Where(h => h.Cue.Kind == CueKind.MoveWord).Select(h => h.At)];
        foreach (HeardPass.Said word in pass.Heard.Where(h => h.Cue.Kind == CueKind.MoveWord))
        {
            log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{word.At:0.0} {word.Cue.Text}: {word.Aim.Reason}, spread {word.Aim.Dish?.Spread.Degrees:0.0}, ticks {pass.Heard.Count(h => h.Cue.Kind == CueKind.ClockTick && h.At > word.At - 3.2 && h.At < word.At)}"));
        }

        int ticked = words.Count(word => pass.Heard.Count(h => h.Cue.Kind == CueKind.ClockTick && h.At > word - 3.2 && h.At < word) == 3);
        Assert.True(ticked >= 0.6 * words.Length, $"{ticked} of {words.Length}");
    }

    [Theory]
    [InlineData(120)]
    [InlineData(250)]
    [InlineData(400)]
    public void A_fade_of_6_dB_and_20_s_starts_few_nudges_of_its_own_and_none_beyond_the_beam(double fadeAt)
    {
        HeardPass quiet = Quiet.Value;
        HeardPass faded = new HeardPass(60) { FadeDb = t => t >= fadeAt && t < fadeAt + 20.0 ? 6.0 : 0.0 }.Fly();
        HeardPass.Said[] planned = Words(quiet);
        HeardPass.Said[] said = Words(faded);
        Assert.InRange(said.Length, 0, planned.Length + 6);
        Assert.All(said, word => Assert.True(word.WrongB < 1.0, $"{word.At:0.0} {word.Cue.Text}: {word.WrongB:0.00} B"));

        HeardPass.Said[] Words(HeardPass pass) =>
            [.. pass.Heard.Where(h => h.Cue.Kind == CueKind.MoveWord && h.At >= fadeAt && h.At < fadeAt + 20.0)];
    }

    [Fact]
    public void The_same_pass_sounds_the_same_again()
    {
        HeardPass one = Quiet.Value;
        HeardPass two = new HeardPass(60).Fly();
        Assert.Equal(one.Heard.Select(h => (h.At, h.Cue.Kind, h.Cue.Text)), two.Heard.Select(h => (h.At, h.Cue.Kind, h.Cue.Text)));
    }
}
