using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Planning;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;

namespace Cockpit.Reports;

/// <summary>Everything that a set-up sheet tells; for one pass of an evening.</summary>
internal sealed record SheetFacts
{
    /// <summary>So long before the rise one wants to stand there and line up; common practice, no source.</summary>
    public static readonly TimeSpan SetUpBefore = TimeSpan.FromMinutes(20);

    /// <summary>The pass.</summary>
    public required EveningPass Pass { get; init; }

    /// <summary>Where, when, and the magnetic field.</summary>
    public required Evening Evening { get; init; }

    /// <summary>Local time.</summary>
    public required WallTime Clock { get; init; }

    /// <summary>The plan of the dish; what is skipped is marked in it.</summary>
    public required ImmutableArray<Hold> Holds { get; init; }

    /// <summary>The pass, evenly sampled, for the plot.</summary>
    public required ImmutableArray<PassMoment> Path { get; init; }

    /// <summary>In which axes the hand moves the dish.</summary>
    public required Mount Mount { get; init; }

    /// <summary>Sun, moon and pole star while the dish is set up.</summary>
    public required Bearings AtSetUp { get; init; }

    /// <summary>The same at the top of the pass.</summary>
    public required Bearings AtTop { get; init; }

    /// <summary>Diameter of the dish, metres.</summary>
    public required double DishMetres { get; init; }

    /// <summary>Its half-power beamwidth.</summary>
    public required Angle BeamWidth { get; init; }

    /// <summary>What the recording needs.</summary>
    public required RecordingNeed Need { get; init; }

    /// <summary>Where it is kept.</summary>
    public required string Folder { get; init; }

    /// <summary>Plans the dish for a pass, and looks where the sun and the moon are.</summary>
    /// <param name="pass">The pass.</param>
    /// <param name="evening">Where, when, and what else comes.</param>
    /// <param name="clock">Local time.</param>
    /// <param name="hand">In which axes the dish is moved, and what the plan does beside the sun.</param>
    /// <param name="need">What the recording needs.</param>
    /// <param name="folder">Where it is kept.</param>
    public static SheetFacts For(EveningPass pass, Evening evening, WallTime clock, (Mount Mount, SunRule Sun) hand, RecordingNeed need, string folder)
    {
        PlannedPass planned = pass.Planned;
        Site station = evening.Question.Station;
        SessionSettings settings = new()
        {
            ProgramVersion = "",
            Kind = SessionKind.Live,
            StationName = "",
            Station = station,
            SatelliteName = pass.Satellite,
            Elements = planned.Elements,
            DishDiameterMetres = planned.Link.Dish.DiameterMetres,
            Downlink = planned.Link.Carrier,
            Mount = hand.Mount,
            Sun = hand.Sun,
        };
        var plan = SkyPlan.Of(planned.Verdict.Candidate.Track, planned.Elements.EpochUtc, planned.Pass, settings);
        return new SheetFacts
        {
            Pass = pass,
            Evening = evening,
            Clock = clock,
            Holds = plan.Holds,
            Path = plan.Plot,
            Mount = hand.Mount,
            AtSetUp = Bearings.At(station, pass.Rise.Utc - SetUpBefore),
            AtTop = Bearings.At(station, pass.Top.Utc),
            DishMetres = planned.Link.Dish.DiameterMetres,
            BeamWidth = planned.Verdict.BeamWidth,
            Need = need,
            Folder = folder,
        };
    }

    /// <summary>Where the dish waits for the satellite.</summary>
    public SkyPlace First => Holds.IsEmpty ? new SkyPlace(Pass.Rise.Azimuth, Pass.Rise.Elevation) : Holds[0].Flown();

    /// <summary>A true azimuth as a compass reads it.</summary>
    public Angle Compass(Angle azimuth) => Evening.Field.ToMagnetic(azimuth);
}
