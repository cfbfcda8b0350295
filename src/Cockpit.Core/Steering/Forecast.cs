namespace Cockpit.Core.Steering;

/// <summary>The move to come, as far as it can be seen now.</summary>
/// <param name="At">When it will be called, seconds.</param>
/// <param name="Move">Which.</param>
public readonly record struct Forecast(double At, Candidate Move);
