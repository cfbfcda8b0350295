using Cockpit.Core.Chance;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>Whole simulated sessions with one hand, reviewed for what they tell about it.</summary>
public static class LearningPass
{
    private const double BeforeRiseSeconds = 60.0;
    private const double SearchDays = 6.0;
    private const double LowestHighDegrees = 18.0;

    /// <summary>Flies one pass and reviews the hand.</summary>
    /// <param name="skill">Whose hand.</param>
    /// <param name="seed">Chooses the pass, the weather and the hand's chance.</param>
    /// <returns>What its review tells of the hand, as it would of a journal.</returns>
    public static HandOfPass Fly(HandSkill skill, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(skill);
        Demo demo = Demo.Of(seed, "");
        var track = new SatelliteTrack(new Sgp4(Demo.Elements), demo.Settings.Station);
        Pass[] passes =
        [
            .. PassSearch.Find(track, demo.StartUtc, demo.StartUtc.AddDays(SearchDays), demo.Settings.MinimumElevation)
                .Where(p => p.Aos.Utc > demo.StartUtc.AddMinutes(5) && p.Tca.Look.Elevation.Degrees > LowestHighDegrees),
        ];
        Pass pass = passes[(int)(new Xoshiro256(seed, 8).NextUnit() * passes.Length)];
        SessionSettings settings = demo.Settings with { Kind = SessionKind.Simulated, CueLead = ClosedLoop.LeadOf(skill), Seed = seed };
        return Fly(pass, settings, new SimulatedPass(track, settings, skill));
    }

    private static HandOfPass Fly(Pass pass, SessionSettings settings, SimulatedPass simulated)
    {
        DateTimeOffset opened = pass.Aos.Utc - TimeSpan.FromSeconds(BeforeRiseSeconds);
        var fold = new Fold();
        var recorder = new ReviewRecorder();
        long sequence = 0;
        Snapshot Publish(DateTimeOffset utc, string source, SessionEvent happened)
        {
            Snapshot after = fold.Step(new Envelope(++sequence, utc - opened, utc, source, happened));
            recorder.Add(happened, after);
            return after;
        }

        Publish(opened, Sources.Program, new SessionOpened(settings));
        int steps = (int)((BeforeRiseSeconds + pass.Duration.TotalSeconds) / SimulatedReceiver.Step.TotalSeconds);
        for (int i = 1; i < steps; i++)
        {
            DateTimeOffset utc = opened + (SimulatedReceiver.Step * i);
            foreach (SessionEvent happened in simulated.Step(Publish(utc, Sources.Clock, new Ticked())))
            {
                if (happened is not TruthRecorded)
                {
                    Publish(utc, happened is OperatorPressed ? Sources.Keys : Sources.Signal, happened);
                }
            }
        }

        return recorder.Log() is { } log && Reviewer.Make(log) is { } review ? HandOfPass.Of(review.Hand) : HandOfPass.Nothing;
    }
}
