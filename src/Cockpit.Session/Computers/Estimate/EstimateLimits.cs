namespace Cockpit.Session.Computers.Estimate;

/// <summary>Numbers of the answers to marks; design values. Spans are real time.</summary>
internal static class EstimateLimits
{
    /// <summary>A refused mark pressed again within this time is taken: the operator insists.</summary>
    public static readonly TimeSpan InsistWithin = TimeSpan.FromSeconds(3);

    /// <summary>How long a notice stays.</summary>
    public static readonly TimeSpan NoticeFor = TimeSpan.FromSeconds(8);

    /// <summary>The best level is remembered for so long.</summary>
    public static readonly TimeSpan BestFor = TimeSpan.FromSeconds(30);

    /// <summary>A mark this far under the best is refused, dB.</summary>
    public const double RefuseDb = 3.0;

    /// <summary>How far an accepted mark under the best pulls the scale of the marks down, share.</summary>
    public const double GainDownPerMark = 0.5;

    /// <summary>A hand that is given more time than this between call and move is a novice's.</summary>
    public static readonly TimeSpan NoviceLead = TimeSpan.FromSeconds(1.3);
}
