namespace Cockpit.Session.State;

/// <summary>The measured carrier beside the prediction.</summary>
/// <param name="DifferenceHz">Measured minus predicted, Hz: the error of the oscillators, and what elements and clock are wrong by. Null when it is not measured now.</param>
/// <param name="Slip">The time that explains how the difference changes; null where the geometry does not carry it.</param>
public sealed record CarrierNow(double? DifferenceHz, SlipNow? Slip);

/// <summary>A slip of elements or clock.</summary>
/// <param name="Seconds">The satellite comes so much earlier than predicted, s; negative = later.</param>
/// <param name="Sd">Its standard deviation, s.</param>
/// <param name="IsWrong">It is so large beyond doubt that somebody has to know.</param>
public sealed record SlipNow(double Seconds, double Sd, bool IsWrong);
