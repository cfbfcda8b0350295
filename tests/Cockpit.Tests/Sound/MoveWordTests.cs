using Cockpit.Checks.Voice;
using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Units;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Cockpit.Tests.Cues;

namespace Cockpit.Tests.Sound;

public sealed class MoveWordTests
{
    private static readonly Angle Beam = Angle.FromDegrees(15.4);

    [Theory]
    [InlineData(null, 1.0, 1.0)]
    [InlineData(-12.0, 0.98, 0.95)]
    public void A_listener_with_two_ears_or_one_understands_every_word_between_other_sounds(double? noiseDb, double both, double one)
    {
        VoiceScores scores = VoiceTrial.Random(seed: 3, rounds: 1, noiseDb);
        Assert.Equal(68, scores.Both.Words);
        Assert.True(scores.Both.Share >= both, $"{scores}");
        Assert.True(scores.Left.Share >= one, $"{scores}");
        Assert.True(scores.Right.Share >= one, $"{scores}");
        Assert.InRange(scores.Both.Imagined + scores.Left.Imagined + scores.Right.Imagined, 0, noiseDb is null ? 0 : 2);
    }

    // Ticks, answers to keys, heartbeat, the tone of a search, a feed that goes and comes back: all that can stand beside a word.
    [Fact]
    public void A_listener_who_hears_a_whole_pass_understands_its_words()
    {
        Xoshiro256 chance = new(11);
        PassStage stage = new(5);
        stage.Snapshot = stage.Snapshot with { Settings = PassStage.Settings() with { Heartbeat = true } };
        List<(TimeSpan At, CuePlan Plan)> plans = [];
        double call = 0.0;
        int hold = 0;
        double? key = null;
        stage.Run(400, s =>
        {
            plans.Add((s.Snapshot.Elapsed, s.Plan));
            if (s.Now > call + 6.0)
            {
                call = s.Now + 5.0 + (9.0 * chance.NextUnit());
                s.Plan3(++hold, call, 2.0 * (chance.NextUnit() - 0.5), 1.4 * (chance.NextUnit() - 0.5));
                s.Aim(a => a with { PeakAsked = hold % 4 == 3, PointingLoss = new Decibels(hold % 3 == 2 ? 4.0 : 0.3) });
                key = call + 0.7 + (4.0 * chance.NextUnit());
            }

            s.Feed(s.Now is > 200 and < 230 ? FeedHealth.Stale : FeedHealth.Good);
            if (s.Now >= call) { s.Aim(a => a with { Word = AimWord.Move }); }

            if (s.Now >= key)
            {
                key = null;
                s.Press(OperatorKey.Moved);
                plans.Add((s.Snapshot.Elapsed, s.Plan));
            }
        });

        VoiceScores scores = VoiceTrial.Of(plans, noiseDb: null);
        Assert.InRange(scores.Both.Words, 20, 80);
        Assert.True(scores.Both.Share >= 0.98, $"{scores}");
        Assert.True(Math.Min(scores.Left.Share, scores.Right.Share) >= 0.95, $"{scores}");
        Assert.Superset(new HashSet<CueKind> { CueKind.ClockTick, CueKind.Taken, CueKind.Heartbeat, CueKind.Caution, CueKind.FeedBack }, stage.Kinds.ToHashSet());
        Assert.Contains(stage.Peaks, p => p.Tone is not null);
    }

    [Theory]
    [InlineData(0.09, 0.0, 0, 0)]
    [InlineData(0.2, 0.0, 1, 0)]
    [InlineData(-0.5, 0.0, -2, 0)]
    [InlineData(0.7, 0.0, 3, 0)]
    [InlineData(3.0, -0.9, 3, 0)]
    [InlineData(-0.7, 0.29, -3, 1)]
    [InlineData(0.0, -0.9, 0, -2)]
    public void Sizes_are_counted_in_beamwidths(double h, double v, int side, int height) =>
        Assert.Equal(new MoveMeaning(side, height, false), MoveWord.Meaning(new AimError(Beam * h, Beam * v, Beam * h), Beam, Mount.Free));

    [Fact]
    public void A_hundred_words_never_contradict_the_way_on_the_sky_and_that_of_the_head_overhead()
    {
        Xoshiro256 chance = new(359);
        int said = 0;
        for (int i = 0; i < 100; i++)
        {
            Angle azimuth = Angle.FromDegrees(i % 3 == 0 ? 359.0 + (2.0 * chance.NextUnit()) : 360.0 * chance.NextUnit());
            Angle elevation = Angle.FromDegrees(i % 4 == 0 ? 85.0 : 5.0 + (75.0 * chance.NextUnit()));
            Angle right = Beam * (2.0 * (chance.NextUnit() - 0.5));
            Angle up = Beam * (2.0 * (chance.NextUnit() - 0.5));
            (Angle targetAzimuth, Angle targetElevation) = AimErrors.Moved(azimuth, elevation, right, up);
            AimError move = AimErrors.Between(azimuth.WrappedToTurn(), elevation, targetAzimuth, targetElevation);
            Mount mount = i % 2 == 0 ? Mount.PanTilt : Mount.Free;
            if (MoveWord.For(move, Beam, mount) is not { } word) { continue; }

            Angle told = move.By(mount).Lift;
            said++;
            MoveMeaning heard = WordDecoder.Decode(Ear.Channel(Ear.Render(word.Tones), 0));
            Assert.True(heard.Side == 0 || Math.Sign(heard.Side) == Math.Sign(right.Radians), $"{i}: {word.Text}");
            Assert.True(heard.Height == 0 || Math.Sign(heard.Height) == Math.Sign(told.Radians), $"{i}: {word.Text}");
            Assert.True(heard.Side != 0 || heard.Height != 0);
            Assert.Equal(heard.Side > 0, word.Text.Contains("right", StringComparison.Ordinal));
            Assert.Equal(heard.Side < 0, word.Text.Contains("left", StringComparison.Ordinal));
            Assert.Equal(heard.Height > 0, word.Text.Contains("up", StringComparison.Ordinal));
            Assert.Equal(heard.Height < 0, word.Text.Contains("down", StringComparison.Ordinal));
        }

        Assert.True(said > 90);
    }

    [Theory]
    [InlineData(0.45, 0.0, 30.0, "right 7")]
    [InlineData(-0.45, 0.2, 30.0, "left 7, up 3")]
    [InlineData(0.0, -0.25, 30.0, "down 4")]
    [InlineData(0.45, 0.0, 80.0, "right 40")]
    public void A_word_has_its_words(double h, double v, double elevation, string text)
    {
        AimError move = new(Beam * h, Beam * v, Beam * (h / Math.Cos(Angle.FromDegrees(elevation).Radians)));
        Assert.Equal(text, MoveWord.For(move, Beam, elevation > 70.0 ? Mount.PanTilt : Mount.Free)?.Text);
    }

    [Fact]
    public void Nothing_is_said_about_next_to_nothing() => Assert.Null(MoveWord.For(new AimError(Beam * 0.09, Beam * -0.09, Beam * 0.09), Beam, Mount.Free));

    [Theory]
    [InlineData(0.1, 0.7)]
    [InlineData(0.45, 1.367)]
    [InlineData(1.0, 2.962)]
    [InlineData(3.0, 3.0)]
    public void The_rate_grows_with_the_error(double sizeB, double rate) => Assert.Equal(rate, MoveWord.RatePerSecond(sizeB), 0.001);
}
