using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sky;
using Cockpit.Core.Sound;
using Cockpit.Core.Units;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Tests.Rehearsal;

/// <summary>A whole pass that leads through the sun, flown by a simulated hand that does what is called.</summary>
public sealed class SunPassTests
{
    private static readonly Lazy<Flight> Around = new(() => Fly(SunRule.Skip));
    private static readonly Lazy<Flight> Through = new(() => Fly(SunRule.Fly));

    [Fact]
    public void The_dish_is_led_around_the_sun()
    {
        Angle width = Beam.Of(Settings(SunRule.Skip).DishDiameterMetres, Settings(SunRule.Skip).Downlink).HalfPowerWidth;
        Assert.True(Nearest(Through.Value) < width / 3.0, $"{Nearest(Through.Value).Degrees:0.0}");
        Assert.True(Nearest(Around.Value) > width, $"{Nearest(Around.Value).Degrees:0.0} of {width.Degrees:0.0}");
    }

    [Fact]
    public void What_is_skipped_is_the_same_in_plan_strip_and_voice()
    {
        Snapshot first = Around.Value.Snapshots[0];
        SkippedHolds skipped = first.Sky!.Sun!.Skipped!;
        Assert.Equal(skipped, SkippedHolds.Of(first.Sky.Holds));
        Assert.InRange(skipped.Nearest.Degrees, 0.0, 2.0);
        Assert.Contains(Around.Value.Heard, heard => heard.Cue.Kind == CueKind.Caution && string.Equals(heard.Cue.Text, skipped.Words(), StringComparison.Ordinal));
        Assert.Contains(Around.Value.Snapshots, s => s.Aim is { Word: AimWord.Move, Reason: AimReason.Sun });
        Assert.Null(Through.Value.Snapshots[0].Sky!.Sun!.Skipped);
        Assert.All(Through.Value.Snapshots[0].Sky!.Holds, hold => Assert.Null(hold.Skip));
        Assert.Contains(Through.Value.Heard, heard => string.Equals(heard.Cue.Text, "the sun is near the beam", StringComparison.Ordinal));
        Assert.DoesNotContain(Through.Value.Snapshots, s => s.Aim.Reason == AimReason.Sun);
    }

    [Fact]
    public void Before_the_pass_the_check_names_what_is_skipped_and_is_red_where_the_dish_is_led_through_the_sun()
    {
        static ReadinessItem Sun(Flight flight) => flight.Snapshots[0].Readiness!.Items.Single(item => item.Topic == ReadinessTopic.Sun);
        Assert.Equal((ReadinessState.Open, Around.Value.Snapshots[0].Sky!.Sun!.Skipped!.Words()), (Sun(Around.Value).State, Sun(Around.Value).Found));
        Assert.Equal(ReadinessState.Red, Sun(Through.Value).State);
        Assert.Contains("within the beam", Sun(Through.Value).Found, StringComparison.Ordinal);
    }

    // Nobody is to be told that a nudge came late where the plan itself went another way.
    [Fact]
    public void What_the_way_around_the_sun_costs_is_put_down_to_the_sun()
    {
        SkyNow sky = Around.Value.Snapshots[0].Sky!;
        DateTimeOffset from = sky.Holds.First(hold => hold.Skip is not null).FromUtc;
        DateTimeOffset to = sky.Holds.Last(hold => hold.Skip is not null).ToUtc;
        SessionReview review = Reviewer.Make(Around.Value.Recorder.Log()!)!;
        Gap[] there = [.. review.Gaps.Where(gap => gap.FromUtc >= from && gap.ToUtc <= to)];
        Assert.NotEmpty(there);
        Assert.All(there, gap => Assert.Equal(GapCause.Sun, gap.Cause));
        Assert.DoesNotContain(review.Gaps, gap => gap.Cause == GapCause.Sun && (gap.ToUtc < from || gap.FromUtc > to.AddSeconds(10)));
        Assert.DoesNotContain(Reviewer.Make(Through.Value.Recorder.Log()!)!.Gaps, gap => gap.Cause == GapCause.Sun);
    }

    [Fact]
    public void After_the_sun_the_satellite_is_found_again()
    {
        SkyNow sky = Around.Value.Snapshots[0].Sky!;
        DateTimeOffset clear = sky.Holds.Last(hold => hold.Skip is not null).ToUtc.AddSeconds(25);
        Snapshot[] after = [.. Around.Value.Snapshots.Where(s => s.Utc > clear && s.Utc < sky.Pass.Los.Utc.AddSeconds(-60))];
        Assert.NotEmpty(after);
        Assert.InRange(after.Count(s => s.Link.IsLocked) / (double)after.Length, 0.8, 1.0);
    }

    [Theory]
    [InlineData(SunRule.Skip)]
    [InlineData(SunRule.Fly)]
    public void The_caution_is_in_the_wave_file_at_its_time(SunRule rule)
    {
        Flight flight = rule == SunRule.Skip ? Around.Value : Through.Value;
        Heard caution = flight.Heard.First(heard => heard.Cue.Kind == CueKind.Caution && heard.Cue.Text.Contains("sun", StringComparison.Ordinal));
        string path = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N") + ".wav");
        try
        {
            // What is heard in the ten seconds about the caution, and the same without it.
            SoundTrack.Write(path, Plans(flight, caution.At, without: false));
            double with = Energy(path, 1.0, 2.0);
            double before = Energy(path, 0.0, 0.9);
            SoundTrack.Write(path, Plans(flight, caution.At, without: true));
            double silent = Energy(path, 1.0, 2.0);
            Assert.True(with > 1e-4 && with > 100.0 * silent && with > 10.0 * before, $"with {with:0.0e0}, before {before:0.0e0}, without {silent:0.0e0}");
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void In_words_the_caution_says_which_holds_and_how_near_the_sun_is()
    {
        SkippedHolds skipped = Around.Value.Snapshots[0].Sky!.Sun!.Skipped!;
        ImmutableArray<string> clips = SpokenCue.Clips(CueTable.Caution(skipped.Words()));
        Assert.All(clips, clip => Assert.Contains(clip, SpokenCue.Vocabulary));
        Assert.Equal(["holds", "to", "skipped", "sun", "degrees", "off"], clips.Where(clip => clip is "holds" or "to" or "skipped" or "sun" or "degrees" or "off"));
        Assert.Equal("hold four skipped sun five degrees off", string.Join(" ", SpokenCue.Clips(CueTable.Caution(new SkippedHolds(4, 4, Angle.FromDegrees(5)).Words()))));
    }

    private static IEnumerable<(TimeSpan At, CuePlan Plan)> Plans(Flight flight, TimeSpan at, bool without)
    {
        TimeSpan from = at - TimeSpan.FromSeconds(1.0);
        foreach ((TimeSpan when, CuePlan plan) in flight.Plans.Where(p => p.At >= from && p.At <= at + TimeSpan.FromSeconds(2.0)))
        {
            yield return (when - from, without && when == at ? plan with { Started = [.. plan.Started.Where(cue => cue.Kind != CueKind.Caution)] } : plan);
        }
    }

    /// <summary>Mean square of the samples between two times, full scale 1.</summary>
    private static double Energy(string path, double from, double to)
    {
        byte[] bytes = File.ReadAllBytes(path);
        ReadOnlySpan<byte> samples = bytes.AsSpan(44);
        double sum = 0.0;
        int count = 0;
        for (int i = (int)(from * SoundFormat.Rate) * 4; i + 1 < Math.Min(samples.Length, (int)(to * SoundFormat.Rate) * 4); i += 2)
        {
            double sample = BitConverter.ToInt16(samples.Slice(i, 2)) / 32768.0;
            sum += sample * sample;
            count++;
        }

        return sum / count;
    }

    private static Angle Nearest(Flight flight)
    {
        BodyTrack sun = new(SkyBody.Sun, Settings(SunRule.Fly).Station);
        Angle nearest = Angle.FromDegrees(180);
        foreach ((DateTimeOffset utc, TruthRecorded truth) in flight.Truths)
        {
            LookAngles there = sun.At(utc)!.Value;
            Angle apart = AimErrors.Separation(there.Azimuth, there.Elevation, truth.Azimuth, truth.Elevation);
            nearest = apart < nearest ? apart : nearest;
        }

        return nearest;
    }

    private static SessionSettings Settings(SunRule rule) => Demo.Of(11, "test").Settings with
    {
        Station = new Site(Angle.FromDegrees(27), Angle.FromDegrees(-6), 100),
        Sun = rule,
    };

    private static Flight Fly(SunRule rule)
    {
        SessionSettings settings = Settings(rule);
        SkyPlan plan = SkyPlan.For(settings, Demo.Of(11, "test").StartUtc)!;
        DateTimeOffset start = plan.Pass.Aos.Utc.AddSeconds(-70);
        SimulatedPass simulated = new(new SatelliteTrack(new Sgp4(Demo.Elements), settings.Station), settings, HandSkill.Practised);
        Fold fold = new();
        Flight flight = new([], [], [], []);
        long sequence = 0;
        _ = Step(TimeSpan.Zero, Sources.Program, new SessionOpened(settings));
        int steps = (int)((plan.Pass.Los.Utc - start).TotalSeconds * 10);
        for (int i = 1; i <= steps; i++)
        {
            TimeSpan at = TimeSpan.FromSeconds(i * 0.1);
            Snapshot snapshot = Step(at, Sources.Clock, new Ticked());
            foreach (SessionEvent happened in simulated.Step(snapshot))
            {
                _ = Step(at, Sources.Rehearsal, happened);
                if (happened is TruthRecorded truth) { flight.Truths.Add((start + at, truth)); }
            }
        }

        return flight;

        Snapshot Step(TimeSpan at, string source, SessionEvent happened)
        {
            Snapshot snapshot = fold.Step(new Envelope(++sequence, at, start + at, source, happened));
            flight.Snapshots.Add(snapshot);
            flight.Recorder.Add(happened, snapshot);
            flight.Plans.Add((at, snapshot.Cues));
            flight.Heard.AddRange(snapshot.Cues.Started.Select(cue => new Heard(at, cue)));
            return snapshot;
        }
    }

    private sealed record Heard(TimeSpan At, Cue Cue);

    private sealed record Flight(List<Snapshot> Snapshots, List<Heard> Heard, List<(TimeSpan At, CuePlan Plan)> Plans, List<(DateTimeOffset Utc, TruthRecorded Truth)> Truths)
    {
        public ReviewRecorder Recorder { get; } = new();
    }
}
