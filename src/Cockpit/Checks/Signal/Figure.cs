namespace Cockpit.Checks.Signal;

/// <summary>One figure of a check and the limit it must keep.</summary>
/// <param name="Clip">What was measured.</param>
/// <param name="Name">The figure.</param>
/// <param name="Value">What came out; null where there was nothing to measure.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Limit">The limit.</param>
/// <param name="AtLeast">Whether the limit is the least; else the most.</param>
internal sealed record Figure(string Clip, string Name, double? Value, string Unit, double Limit, bool AtLeast = false)
{
    /// <summary>Whether it keeps the limit; what was not measured does.</summary>
    public bool Ok => Value is not { } value || (AtLeast ? value >= Limit : Math.Abs(value) <= Limit);
}
