using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Units;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Tests.Sound;

public sealed class MoveWordTests
{
    private static readonly Angle Beam = Angle.FromDegrees(15.4);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Twenty_random_words_are_understood_from_either_ear_alone(int ear)
    {
        Xoshiro256 chance = new(2026);
        for (int i = 0; i < 20; i++)
        {
            double h = 1.2 * ((2.0 * chance.NextUnit()) - 1.0);
            double v = 1.2 * ((2.0 * chance.NextUnit()) - 1.0);
            Cue? word = MoveWord.For(new AimError(Beam * h, Beam * v, Beam * h), Beam);
            Assert.NotNull(word);
            WordDecoder.Word heard = WordDecoder.Decode(Ear.Channel(Ear.Render(word.Tones), ear));
            Assert.Equal(Said(h, v), heard.Side);
            Assert.Equal(Said(v, h), heard.Height);
            Assert.Equal(Said(v, h) == 0 ? 0 : Math.Abs(v) > 0.3 ? 2 : 1, heard.HeightSize);
        }

        static int Said(double own, double other) => Math.Abs(own) < 0.1 || Math.Abs(own) < 0.4 * Math.Abs(other) ? 0 : Math.Sign(own);
    }

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
            bool overhead = elevation.Degrees > 70.0;
            if (MoveWord.For(move, Beam, overhead) is not { } word) { continue; }

            Angle told = overhead ? move.Tilt : up;
            said++;
            WordDecoder.Word heard = WordDecoder.Decode(Ear.Channel(Ear.Render(word.Tones), 0));
            Assert.True(heard.Side == 0 || heard.Side == Math.Sign(right.Radians), $"{i}: {word.Text}");
            Assert.True(heard.Height == 0 || heard.Height == Math.Sign(told.Radians), $"{i}: {word.Text}");
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
    [InlineData(0.45, 0.0, 80.0, "pan right 40")]
    public void A_word_has_its_words(double h, double v, double elevation, string text)
    {
        AimError move = new(Beam * h, Beam * v, Beam * (h / Math.Cos(Angle.FromDegrees(elevation).Radians)));
        Assert.Equal(text, MoveWord.For(move, Beam, elevation > 70.0)?.Text);
    }

    [Fact]
    public void Nothing_is_said_about_next_to_nothing() => Assert.Null(MoveWord.For(new AimError(Beam * 0.09, Beam * -0.09, Beam * 0.09), Beam));

    [Theory]
    [InlineData(0.1, 0.7)]
    [InlineData(0.45, 1.367)]
    [InlineData(1.0, 2.962)]
    [InlineData(3.0, 3.0)]
    public void The_rate_grows_with_the_error(double sizeB, double rate) => Assert.Equal(rate, MoveWord.RatePerSecond(sizeB), 0.001);
}
