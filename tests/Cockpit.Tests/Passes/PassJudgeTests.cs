using System.Collections.Immutable;
using Cockpit.Checks;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Session.Rehearsal;
using Xunit.Abstractions;

namespace Cockpit.Tests.Passes;

public sealed class PassJudgeTests(ITestOutputHelper output)
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 0, 0, 0, TimeSpan.Zero);
    private static readonly Site Lowland = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);
    private static readonly VerdictSettings Usual = new() { Site = Lowland };
    private static readonly ImmutableArray<PassCandidate> ThreeDays = [.. Candidates(TimeSpan.FromDays(3))];

    [Fact]
    public void Every_pass_of_three_days_gets_a_whole_verdict()
    {
        ImmutableArray<PassVerdict> verdicts = PassJudge.All(ThreeDays, Usual);
        Assert.True(verdicts.Length > 30, "the scene has too few passes to show anything");
        foreach (PassVerdict verdict in verdicts)
        {
            output.WriteLine($"{verdict.Score,3:0} {verdict.Candidate.Satellite,-12} {verdict.Pass.Aos.Utc:MM-dd HH:mm} {verdict.Pass.Tca.Look.Elevation.Degrees,2:0} {verdict.Sentence} | {verdict.Travel} | sun {verdict.SunBelowSatellite.Degrees:0} margin {verdict.MarginAtCulmination.Value:0.0}");
            Assert.InRange(verdict.Score, 0, 100);
            Assert.InRange(verdict.ReceivableShare, 0, 1);
            Assert.InRange(verdict.Nudges, 0, 60);
            Assert.InRange(verdict.SunBelowSatellite.Degrees, -90, 90);
            Assert.True(verdict.LeastMargin <= verdict.MarginAtCulmination + new Decibels(1));
            Assert.StartsWith(verdict.Word.ToString().ToLowerInvariant() + ": ", verdict.Sentence, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Best_first_begins_with_a_go_and_ends_with_what_this_dish_cannot_hear()
    {
        ImmutableArray<PassVerdict> order = PassJudge.BestFirst(PassJudge.All(ThreeDays, Usual));
        Assert.Equal(VerdictWord.Go, order[0].Word);
        Assert.Equal(order.Select(verdict => verdict.Word).OrderDescending(), order.Select(verdict => verdict.Word));
        Assert.True(order[0].Receivable > order[^1].Receivable);
    }

    // The hold plan of an independent prototype for 0.8 m at 1.7 GHz and 0.5 dB: 16, 22, 25, 27, 28, 28 holds.
    [Theory]
    [InlineData(15, 16)]
    [InlineData(30, 22)]
    [InlineData(45, 25)]
    [InlineData(60, 27)]
    [InlineData(75, 28)]
    [InlineData(88, 28)]
    public void Nudges_are_the_holds_of_the_plan_less_the_first(double highest, int holds)
    {
        PassVerdict verdict = PassJudge.One(Circular(highest), Usual);
        Assert.Equal(holds - 1, verdict.Nudges);
    }

    // The margins of the link budget: 0.8 m, split-phase, 830 km: -3.7 dB at 5°, -0.5 at 10°, 4.6 at 30°, 8.3 overhead.
    [Fact]
    public void The_margin_and_the_share_come_from_the_link_budget()
    {
        PassVerdict high = PassJudge.One(Circular(90), Usual);
        Assert.Equal(8.3, high.MarginAtCulmination.Value, 0.2);
        Assert.Equal(-3.7, high.LeastMargin.Value, 0.25);
        Assert.InRange(high.ReceivableShare, 0.65, 0.85);
        PassVerdict low = PassJudge.One(Circular(9), Usual);
        Assert.Equal(0.0, low.ReceivableShare);
        Assert.Equal(VerdictWord.No, low.Word);
        Assert.Contains("too weak for this dish", low.Sentence, StringComparison.Ordinal);
        PassVerdict easy = PassJudge.One(Circular(9), Usual with { Link = new LinkModel { Service = Service.Manchester665k } });
        Assert.Equal(1.0, easy.ReceivableShare);
        PassVerdict larger = PassJudge.One(Circular(90), Usual with { Link = new LinkModel { Dish = new ReceivingDish { DiameterMetres = 1.0 } } });
        Assert.True(larger.ReceivableShare > high.ReceivableShare && larger.Nudges > high.Nudges);
    }

    [Fact]
    public void The_sentence_is_one_that_a_person_understands()
    {
        // A summer noon, so that the sun is high all along.
        PassCandidate noon = Circular(60, new DateTimeOffset(2026, 6, 21, 12, 0, 0, TimeSpan.Zero));
        VerdictSettings coded = Usual with { Site = new Site(Angle.FromDegrees(20), Angle.Zero, 0), Link = new LinkModel { Service = Service.Manchester665k } };
        Assert.StartsWith("go: high, 13 min, daylight, 26 nudges; sun ", PassJudge.One(noon, coded).Sentence, StringComparison.Ordinal);
        PassVerdict old = PassJudge.One(Circular(60) with { ElementAge = new ElementAge(TimeSpan.FromDays(9), 7.45) }, Usual);
        Assert.Contains("; elements 9.0 d old, up to 4 s early or late", old.Sentence, StringComparison.Ordinal);
        Assert.True(old.Score < PassJudge.One(Circular(60), Usual).Score);
    }

    // The sun's place at the sub-satellite point is that of the sun over that point: computed here by the other road, through BodyTrack.
    [Fact]
    public void The_sun_below_the_satellite_is_the_sun_at_the_point_below_it()
    {
        foreach (PassCandidate candidate in ThreeDays.Take(12))
        {
            PassVerdict verdict = PassJudge.One(candidate, Usual);
            PassMoment culmination = candidate.Pass.Tca;
            double flat = culmination.Look.RangeKm * culmination.Look.Elevation.Cos();
            Site below = new StationFrame(Lowland).FromEnu(
                flat * culmination.Look.Azimuth.Sin(), flat * culmination.Look.Azimuth.Cos(), culmination.Look.RangeKm * culmination.Look.Elevation.Sin()).ToSite();
            LookAngles sun = new BodyTrack(SkyBody.Sun, below with { HeightMetres = 0 }).At(culmination.Utc)!.Value;
            Assert.Equal(sun.Elevation.Degrees, verdict.SunBelowSatellite.Degrees, 0.02);
        }
    }

    [Theory]
    [InlineData(12, PictureLight.Daylight)]
    [InlineData(0, PictureLight.InfraRedOnly)]
    public void Noon_is_daylight_and_midnight_infra_red_only(int hour, PictureLight light) =>
        Assert.Equal(light, PassJudge.One(Circular(60, new DateTimeOffset(2026, 6, 21, hour, 0, 0, TimeSpan.Zero)), Usual with { Site = new Site(Angle.FromDegrees(20), Angle.Zero, 0) }).Light);

    [Fact]
    public void Dusk_below_the_track_is_part_daylight()
    {
        // At the spring equinox, at 18h local time, the dusk line runs north and south below the station; a track from north-north-east to south-south-west crosses it.
        PassVerdict verdict = PassJudge.One(Circular(80, new DateTimeOffset(2026, 3, 20, 17, 40, 0, TimeSpan.Zero)), Usual with { Site = new Site(Angle.Zero, Angle.Zero, 0) });
        Assert.Equal(PictureLight.Mixed, verdict.Light);
        Assert.Contains("part daylight", verdict.Sentence, StringComparison.Ordinal);
    }

    // A track that is the sun's own: the satellite runs through the sun at culmination.
    [Fact]
    public void A_pass_through_the_sun_is_found_and_costs_a_little()
    {
        var sun = new BodyTrack(SkyBody.Sun, Lowland);
        LookAngles at = sun.At(Noon)!.Value;
        var across = new StraightTrack(Noon, at.Azimuth, at.Elevation);
        var pass = new Pass(across.Moment(Noon.AddMinutes(-5)), across.Moment(Noon), across.Moment(Noon.AddMinutes(5)));
        PassVerdict verdict = PassJudge.One(new PassCandidate("PETREL 2", 90002, pass, across, new ElementAge(TimeSpan.Zero, 7.45)), Usual);
        Assert.True(verdict.SunNear);
        Assert.InRange(verdict.Sun!.Value.Separation.Degrees, 0, 0.1);
        Assert.InRange((verdict.Sun.Value.Utc - Noon).TotalSeconds, -2, 2);
        Assert.Contains("; sun 0° away at 11:00", verdict.Sentence, StringComparison.Ordinal);
        PassVerdict aside = PassJudge.One(new PassCandidate("PETREL 2", 90002, pass, across, new ElementAge(TimeSpan.Zero, 7.45)), Usual with { Site = new Site(Lowland.Latitude, Angle.FromDegrees(-160), 0) });
        Assert.Null(aside.Sun);
        Assert.False(aside.SunNear);
    }

    [Fact]
    public void Passes_at_the_same_time_name_each_other_and_say_which_is_better()
    {
        PassCandidate high = Circular(70) with { Satellite = "PETREL 2" };
        PassCandidate low = Circular(25, Noon.AddMinutes(6)) with { Satellite = "PETREL 3" };
        PassCandidate useless = Circular(8, Noon.AddMinutes(3)) with { Satellite = "PETREL 4" };
        PassCandidate later = Circular(50, Noon.AddHours(2)) with { Satellite = "PETREL 5" };
        ImmutableArray<PassVerdict> verdicts = PassJudge.All([low, useless, later, high], Usual);
        Assert.Equal(new PassClash("PETREL 2", Noon, Better: true), Assert.Single(verdicts[0].Clashes));
        Assert.Empty(verdicts[1].Clashes);
        Assert.Empty(verdicts[2].Clashes);
        Assert.False(Assert.Single(verdicts[3].Clashes).Better);
        Assert.EndsWith("; at the same time as the better PETREL 2", verdicts[0].Sentence, StringComparison.Ordinal);
        Assert.Equal("PETREL 2", PassJudge.BestFirst(verdicts)[0].Candidate.Satellite);
    }

    [Fact]
    public void The_smooth_track_is_the_track_to_a_thousandth_of_a_degree()
    {
        double worst = 0;
        foreach (PassCandidate candidate in ThreeDays)
        {
            var smooth = new SmoothTrackProbe(candidate);
            worst = Math.Max(worst, smooth.WorstDegrees());
        }

        output.WriteLine($"worst {worst:0.0e+00} deg");
        Assert.InRange(worst, 0, 1e-3);
    }

    private static DateTimeOffset Noon { get; } = new(2026, 11, 25, 11, 0, 0, TimeSpan.Zero);

    private static PassCandidate Circular(double highest, DateTimeOffset? aos = null)
    {
        var track = new CircularPass(aos ?? Noon, Angle.FromDegrees(highest));
        return new PassCandidate("PETREL 2", 90002, track.Pass, track, new ElementAge(TimeSpan.FromHours(6), 7.45));
    }

    private static IEnumerable<PassCandidate> Candidates(TimeSpan span)
    {
        var scene = new ReferenceScene(ReferenceFiles.Text("satellites.tle"), ReferenceFiles.Text("stations.json"));
        foreach (string satellite in scene.Satellites)
        {
            SatelliteTrack track = scene.Track(satellite, "LOWLAND");
            foreach (Pass pass in PassSearch.Overlapping(track, Start, Start + span, Angle.FromDegrees(5)))
            {
                yield return new PassCandidate(satellite, 0, pass, track, new ElementAge(pass.Tca.Utc - Start, 7.45));
            }
        }
    }

    /// <summary>A satellite that moves across one direction at 0.2° a second in azimuth.</summary>
    private sealed class StraightTrack(DateTimeOffset middle, Angle azimuth, Angle elevation) : ITrack
    {
        public LookAngles? At(DateTimeOffset utc) => Moment(utc).Look;

        public PassMoment Moment(DateTimeOffset utc) => new(utc, new LookAngles(
            (azimuth + Angle.FromDegrees(0.2 * (utc - middle).TotalSeconds)).WrappedToTurn(), elevation, 1200, 0));
    }

    /// <summary>Compares what the judge sees with the track itself, through the samples of a pass.</summary>
    private sealed class SmoothTrackProbe(PassCandidate candidate)
    {
        public double WorstDegrees()
        {
            var smooth = PassJudge.Smooth(candidate);
            double worst = 0;
            for (DateTimeOffset at = candidate.Pass.Aos.Utc; at <= candidate.Pass.Los.Utc; at += TimeSpan.FromSeconds(7.3))
            {
                LookAngles truth = candidate.Track.At(at)!.Value;
                LookAngles ours = smooth.At(at)!.Value;
                worst = Math.Max(worst, AimErrors.Separation(truth.Azimuth, truth.Elevation, ours.Azimuth, ours.Elevation).Degrees);
            }

            return worst;
        }
    }
}
