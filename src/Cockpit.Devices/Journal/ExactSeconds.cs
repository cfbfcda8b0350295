using System.Text.Json;

namespace Cockpit.Devices.Journal;

/// <summary>Time spans as decimal seconds in JSON, exact to the 100 ns.</summary>
internal static class ExactSeconds
{
    internal static decimal Of(TimeSpan span) => span.Ticks / (decimal)TimeSpan.TicksPerSecond;

    internal static TimeSpan Read(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.Number || !reader.TryGetDecimal(out decimal seconds))
        {
            throw new JsonException("seconds were expected");
        }

        decimal ticks = seconds * TimeSpan.TicksPerSecond;
        return Math.Abs(ticks) <= long.MaxValue ? TimeSpan.FromTicks((long)ticks) : throw new JsonException("the time is out of range");
    }
}
