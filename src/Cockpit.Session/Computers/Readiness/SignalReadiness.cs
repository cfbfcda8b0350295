using System.Globalization;
using Cockpit.Core.Signal;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Readiness;

/// <summary>Whether the level comes, and whether it looks like noise: before the rise nothing else should be heard. Pure.</summary>
internal static class SignalReadiness
{
    /// <summary>Half seconds that are looked at: long enough for a fan or a plug to show, short enough to see a repair.</summary>
    private const int Window = 40;

    /// <summary>Fewer say nothing.</summary>
    private const int Enough = 10;

    /// <summary>Half a second of noise in any usual bandwidth stands stiller than this (radiometer equation); a gain that is regulated, or a plug, does not.</summary>
    private const double MostSwingDb = 1.5;

    /// <summary>More over the noise is somebody's signal.</summary>
    private const double MostSnrDb = 5.0;

    public static ReadinessItem Feed(FeedNow? feed) => feed switch
    {
        null => Red(ReadinessTopic.Signal, "none: the plan alone guides", "--signal ADDRESS"),
        { Health: FeedHealth.Good } => new(ReadinessTopic.Signal, ReadinessState.Green, string.Create(CultureInfo.InvariantCulture, $"{feed.Where}: {feed.Records} records")),
        { Health: FeedHealth.Waiting, Rejected: 0 } => new(ReadinessTopic.Signal, ReadinessState.Open, feed.Trouble is null ? "nothing has come yet" : $"nothing has come yet: {feed.Trouble}", "start the receiver"),
        { Records: 0, Rejected: > 0 } => Red(ReadinessTopic.Signal, string.Create(CultureInfo.InvariantCulture, $"{feed.Rejected} lines came, none understood"), "cockpit feed shows why"),
        { Records: 0 } => Red(ReadinessTopic.Signal, feed.Trouble ?? "nothing has come yet", "start the receiver"),
        _ => Red(ReadinessTopic.Signal, string.Create(CultureInfo.InvariantCulture, $"silent since {feed.SilentSince:HH:mm:ss} UTC"), "look at the receiver"),
    };

    public static ReadinessItem Noise(FeedNow? feed, LinkNow link)
    {
        const ReadinessTopic topic = ReadinessTopic.Noise;
        if (feed?.Remark is { } remark)
        {
            return Red(topic, remark, null);
        }

        if (feed is not { Health: FeedHealth.Good } || !link.IsFresh || link.History.IsDefault)
        {
            return new(topic, ReadinessState.Open, "no level to look at");
        }

        if (link.IsLocked)
        {
            return Red(topic, "locked before the satellite is up", "which signal is it? look at the frequency");
        }

        double[] levels = [.. link.History.Skip(Math.Max(0, link.History.Length - Window)).Select(point => point.MeasuredDb).OfType<double>()];
        return levels.Length < Enough ? new(topic, ReadinessState.Open, "listening") : Judged(levels, link);
    }

    private static ReadinessItem Judged(double[] levels, LinkNow link)
    {
        const ReadinessTopic topic = ReadinessTopic.Noise;
        double mean = levels.Average();
        double swing = Math.Sqrt(levels.Average(level => (level - mean) * (level - mean)));
        string level = string.Create(CultureInfo.InvariantCulture, $"{link.Quantity?.Symbol() ?? "level"} {mean:0.0} ± {swing:0.0} dB");
        return swing > MostSwingDb ? Red(topic, $"{level}: noise is stiller", "a loose plug? automatic gain? switch it off")
            : levels.Max() - levels.Min() < 1e-9 ? Red(topic, $"{level}: no noise stands that still", "does the receiver run?")
            : link.Quantity == SteeringQuantity.SignalToNoise && mean > MostSnrDb ? Red(topic, $"{level}: somebody is there", "turn the dish away")
            : new(topic, ReadinessState.Green, level);
    }

    private static ReadinessItem Red(ReadinessTopic topic, string found, string? todo) => new(topic, ReadinessState.Red, found, todo);
}
