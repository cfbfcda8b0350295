using System.Globalization;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>The key "peaked", and the best level of late that it is judged by.</summary>
internal static class EstimateMarks
{
    /// <summary>Folds the best level and the key of this event, if it is that one.</summary>
    public static EstimateMemory Remember(EstimateMemory memory, EstimateInput input)
    {
        Scene scene = input.Scene;
        if (input.Level is { IsFresh: true, MeasuredDb: { } now } && (memory.BestDb is not { } best || now >= best || scene.Age(memory.BestAt) > EstimateLimits.BestFor))
        {
            memory = memory with { BestDb = now, BestAt = scene.Elapsed };
        }

        return scene.Key == OperatorKey.Peaked ? Peaked(memory, input) : memory;
    }

    private static EstimateMemory Peaked(EstimateMemory memory, EstimateInput input)
    {
        Scene scene = input.Scene;
        if (!scene.InPass || scene.Sky?.Now is null)
        {
            return Say(memory, scene, "Mark not taken: the satellite is not above the horizon.", refusal: true);
        }

        if (input.Level is not { IsFresh: true, MeasuredDb: { } level, ShapeDb: { } shape, Quantity: { } quantity })
        {
            return Say(Accept(memory, scene), scene, "Marked without a signal to check it against.");
        }

        double gain = level - shape;
        double? best = memory.MarkQuantity == quantity ? memory.MarkGainDb : null;
        bool insists = scene.Age(memory.RefusedAt) <= EstimateLimits.InsistWithin;
        if (best - gain > EstimateLimits.RefuseDb && !insists)
        {
            return Say(
                memory with { RefusedAt = scene.Elapsed },
                scene,
                string.Create(CultureInfo.InvariantCulture, $"Mark not taken: {best - gain:0.0} dB under the best; peak again, or press again at once to insist."),
                refusal: true);
        }

        return Accept(memory, scene) with
        {
            MarkGainDb = best > gain ? best + (EstimateLimits.GainDownPerMark * (gain - best)) : gain,
            MarkQuantity = quantity,
            RefusedAt = null,
            Notice = null,
        };
    }

    private static EstimateMemory Accept(EstimateMemory memory, Scene scene)
    {
        memory.Dish?.Mark();
        return memory with { MarkedAt = scene.Elapsed };
    }

    private static EstimateMemory Say(EstimateMemory memory, Scene scene, string text, bool refusal = false) =>
        memory with { Notice = new Message(text, refusal ? MessageWeight.Caution : MessageWeight.Advisory, scene.Utc) { IsRefusal = refusal }, NoticeAt = scene.Elapsed };
}
