using System.Collections.Immutable;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Units;

namespace Cockpit.Core.Verdicts;

/// <summary>Whether a pass is worth going out for, in one word.</summary>
public enum VerdictWord
{
    /// <summary>Nothing clean will come.</summary>
    No = 0,

    /// <summary>Only if there is no other.</summary>
    Poor = 1,

    /// <summary>Worth it on a fine day.</summary>
    Fair = 2,

    /// <summary>Go.</summary>
    Go = 3,
}

/// <summary>What the pictures of a pass show.</summary>
public enum PictureLight
{
    /// <summary>The sun stands lower than 5° all along the ground track: infra-red only.</summary>
    InfraRedOnly = 0,

    /// <summary>The track crosses that line: daylight in a part.</summary>
    Mixed = 1,

    /// <summary>Daylight pictures all along.</summary>
    Daylight = 2,
}

/// <summary>What comes with a pass, and whether to go.</summary>
public sealed record PassVerdict
{
    /// <summary>The pass.</summary>
    public required PassCandidate Candidate { get; init; }

    /// <summary>Its way over the sky in words.</summary>
    public required string Travel { get; init; }

    /// <summary>How far the azimuth goes round, positive clockwise.</summary>
    public required Angle Round { get; init; }

    /// <summary>Margin at culmination; the transmitter makes it uncertain by <see cref="MarginUncertainty"/>.</summary>
    public required Decibels MarginAtCulmination { get; init; }

    /// <summary>Least margin of the pass, usually at rise or set.</summary>
    public required Decibels LeastMargin { get; init; }

    /// <summary>How far the margins may be off, either way.</summary>
    public required Decibels MarginUncertainty { get; init; }

    /// <summary>Share of the pass with a positive margin, 0..1.</summary>
    public required double ReceivableShare { get; init; }

    /// <summary>How often the dish must be moved after it was set up.</summary>
    public required int Nudges { get; init; }

    /// <summary>Elevation of the sun at the point below the satellite at culmination.</summary>
    public required Angle SunBelowSatellite { get; init; }

    /// <summary>The same at rise.</summary>
    public required Angle SunBelowAtRise { get; init; }

    /// <summary>The same at set.</summary>
    public required Angle SunBelowAtSet { get; init; }

    /// <summary>What the pictures show.</summary>
    public required PictureLight Light { get; init; }

    /// <summary>Closest approach of the sun to the satellite on the sky; null when the sun is down. It adds noise within a beamwidth.</summary>
    public required BodyNearness? Sun { get; init; }

    /// <summary>The same of the moon, a mark for aiming by eye: its noise in a small dish is below 1 K.</summary>
    public required BodyNearness? Moon { get; init; }

    /// <summary>Half-power beamwidth of the dish.</summary>
    public required Angle BeamWidth { get; init; }

    /// <summary>How far aside of its prediction the satellite may usually be seen at culmination, high end.</summary>
    public required Angle Aside { get; init; }

    /// <summary>Other passes at the same time that are worth something, by time of rise; of more than eight the eight with the highest scores.</summary>
    public ImmutableArray<PassClash> Clashes { get; init; } = [];

    /// <summary>How many more there are than <see cref="Clashes"/> names.</summary>
    public int FurtherClashes { get; init; }

    /// <summary>0 to 100; for the order, not for its own sake.</summary>
    public required double Score { get; init; }

    /// <summary>How old the elements are at culmination, and what that means.</summary>
    public ElementAge ElementAge => Candidate.ElementAge;

    /// <summary>The pass.</summary>
    public Pass Pass => Candidate.Pass;

    /// <summary>Time with a positive margin.</summary>
    public TimeSpan Receivable => Pass.Duration * ReceivableShare;

    /// <summary>Whether to go, in one word.</summary>
    public VerdictWord Word => ReceivableShare <= 0.0 ? VerdictWord.No : Score switch
    {
        >= 65.0 => VerdictWord.Go,
        >= 45.0 => VerdictWord.Fair,
        _ => VerdictWord.Poor,
    };

    /// <summary>The whole verdict in one sentence, like "go: high, 12 min, daylight, 20 nudges".</summary>
    public string Sentence => VerdictWords.Sentence(this);

    /// <summary>The sentence without light and remarks, like "go: high, 12 min, 20 nudges".</summary>
    public string Brief => VerdictWords.Brief(this);

    /// <summary>The light in words, like "night (infra-red only)".</summary>
    public string LightWords => VerdictWords.Light(Light);

    /// <summary>What the age of the elements means, where that deserves a word: "elements 6 days old, up to 3 s early or late"; null where it does not.</summary>
    public string? AgeRemark => VerdictWords.Age(this);

    /// <summary>Whether the sun comes within two beamwidths of the satellite.</summary>
    public bool SunNear => Sun is { } sun && sun.Separation <= 2.0 * BeamWidth;

    /// <summary>Whether the moon comes within two beamwidths of the satellite.</summary>
    public bool MoonNear => Moon is { } moon && moon.Separation <= 2.0 * BeamWidth;
}
