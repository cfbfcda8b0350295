using Cockpit.Core.Passes;
using Cockpit.Session.Computers.Sky;

namespace Cockpit.Session.Computers.Link;

/// <summary>The part of a pass in which a well-pointed dish can receive, by the link budget; worked out once.</summary>
/// <param name="FromUtc">From when lock is expected, UTC.</param>
/// <param name="ToUtc">Until when, UTC.</param>
/// <param name="Length">How much of the pass has margin.</param>
public sealed record ReceivableSpan(DateTimeOffset FromUtc, DateTimeOffset ToUtc, TimeSpan Length)
{
    /// <summary>Of a pass; null when no moment of it has margin.</summary>
    /// <param name="plan">The pass.</param>
    /// <param name="law">Dish and service.</param>
    public static ReceivableSpan? Of(SkyPlan plan, ExpectedLevel law)
    {
        ReceivableSpan? span = null;
        for (int i = 0; i + 1 < plan.Path.Length; i++)
        {
            PassMoment moment = plan.Path[i];
            if (law.MarginDb(moment.Look) >= 0.0)
            {
                DateTimeOffset end = plan.Path[i + 1].Utc;
                TimeSpan length = (span?.Length ?? TimeSpan.Zero) + (end - moment.Utc);
                span = new ReceivableSpan(span?.FromUtc ?? moment.Utc, end, length);
            }
        }

        return span;
    }
}
