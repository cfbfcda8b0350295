using System.Text.Json;

namespace Cockpit.Devices.Journal;

/// <summary>Time spans as decimal seconds in JSON, exact to the 100 ns.</summary>
internal static class ExactSeconds
{
    private static readonly decimal Most = Of(TimeSpan.MaxValue);

    internal static decimal Of(TimeSpan span) => span.Ticks / (decimal)TimeSpan.TicksPerSecond;

    internal static TimeSpan Read(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.Number || !reader.TryGetDecimal(out decimal seconds))
        {
            throw new EventJsonException("seconds were expected");
        }

        return Math.Abs(seconds) <= Most ? TimeSpan.FromTicks((long)(seconds * TimeSpan.TicksPerSecond)) : throw new EventJsonException("the time is out of range");
    }
}
