namespace Cockpit.Devices.Outlets;

/// <summary>How a simulated sender behaves.</summary>
public sealed record SenderSettings
{
    /// <summary>Lines a second, 0.1 to 10000.</summary>
    public double LinesPerSecond { get; init; } = 10;

    /// <summary>How a line is written.</summary>
    public LineForm Form { get; init; }

    /// <summary>Share of lines that are rubbish, 0 to 1.</summary>
    public double RubbishShare { get; init; }

    /// <summary>When it stands still, connected.</summary>
    public Outage Stall { get; init; }

    /// <summary>When it is gone, as if its program had ended.</summary>
    public Outage Away { get; init; }

    /// <summary>Seed of the rubbish.</summary>
    public ulong Seed { get; init; } = 1;
}

/// <summary>How a simulated sender writes its lines.</summary>
public enum LineForm
{
    /// <summary>key=value pairs.</summary>
    Pairs = 0,

    /// <summary>The steering value as a bare number.</summary>
    Number = 1,

    /// <summary>A JSON object.</summary>
    Json = 2,
}

/// <summary>Something that happens again and again.</summary>
/// <param name="Every">From one beginning to the next; zero = never. The first begins after this.</param>
/// <param name="For">How long it lasts; shorter than <paramref name="Every"/>.</param>
public readonly record struct Outage(TimeSpan Every, TimeSpan For)
{
    /// <summary>Whether it happens at a time since the start.</summary>
    public bool At(TimeSpan elapsed) =>
        Every > TimeSpan.Zero && elapsed >= Every && TimeSpan.FromTicks(elapsed.Ticks % Every.Ticks) < For;
}
