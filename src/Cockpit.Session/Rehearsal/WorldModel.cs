namespace Cockpit.Session.Rehearsal;

/// <summary>A simulated world in numbers: signal, receiver, dish and what a compass is worth. dB, seconds, degrees.</summary>
/// <remarks>Design values. "In simulation": worlds rank ways of steering, they promise nothing.</remarks>
public sealed record WorldModel
{
    /// <summary>Name for tables.</summary>
    public string Name { get; init; } = "world";

    /// <summary>Margin of a 0.8 m dish over the threshold of the picture with the satellite at 30 degrees, dB.</summary>
    public double MarginAt30Db { get; init; } = 6.0;

    /// <summary>Share of the free-space loss that the level follows (0.75: the satellite's antenna is shaped).</summary>
    public double RangeLaw { get; init; } = 0.75;

    /// <summary>The level follows the program's own link budget instead, about 3.7 dB steeper from 30 to 5 degrees.</summary>
    public bool BudgetLaw { get; init; }

    /// <summary>Multiplies the fading.</summary>
    public double FadingFactor { get; init; } = 1.0;

    /// <summary>Noise of one reading, dB.</summary>
    public double ReadingNoiseDb { get; init; } = 0.7;

    /// <summary>Unknown constant offset of the receiver, standard deviation, dB.</summary>
    public double OffsetSdDb { get; init; } = 1.5;

    /// <summary>Added to that offset, dB.</summary>
    public double OffsetDb { get; init; }

    /// <summary>True beam width over the configured one.</summary>
    public double BeamFactor { get; init; } = 1.0;

    /// <summary>Something stands in the way once: what it takes, dB.</summary>
    public double ObstructionDb { get; init; }

    /// <summary>For so long, s, from 40 % of the pass on.</summary>
    public double ObstructionSeconds { get; init; }

    /// <summary>The satellite comes so much later than its elements say, s.</summary>
    public double ElementsLateSeconds { get; init; }

    /// <summary>The feed is silent for so long, s, from 40 % of the pass on.</summary>
    public double DropOutSeconds { get; init; }

    /// <summary>The feed sends only a power relative to something constant: no SNR.</summary>
    public bool RelativeLevelOnly { get; init; }

    /// <summary>The feed says which lines came.</summary>
    public bool TellsLines { get; init; } = true;

    /// <summary>Wind, standard deviation on each axis, degrees.</summary>
    public double WindDegrees { get; init; } = 0.3;

    /// <summary>Sag, degrees a second.</summary>
    public double SagDegreesPerSec { get; init; } = 0.005;

    /// <summary>Wind and sag begin with the session, not with the pass.</summary>
    public bool WindFromStart { get; init; } = true;

    /// <summary>Reading compass and inclinometer takes so long, s.</summary>
    public double CompassSeconds { get; init; } = 3.0;

    /// <summary>Error of one reading, degrees.</summary>
    public double CompassReadingDegrees { get; init; } = 2.0;

    /// <summary>The world of the first comparisons: compass at once and exactly, no wind before the pass, a level law that is flatter than the budget.</summary>
    public static WorldModel Today { get; } = new() { Name = "today", CompassSeconds = 0.0, CompassReadingDegrees = 0.0, WindFromStart = false };

    /// <summary>The default: reading a compass takes time and is good to 2 degrees, wind and sag from the start, the level follows the link budget.</summary>
    public static WorldModel Honest { get; } = new() { Name = "honest", BudgetLaw = true };
}
