using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>One line of a link budget.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">What it adds; losses are negative.</param>
/// <param name="Origin">Where the number comes from.</param>
public sealed record LinkLine(string Name, Decibels Value, string Origin);

/// <summary>Named lines that add up to C/N0, and what is left over.</summary>
/// <param name="Lines">From the transmitter to the noise; their sum is C/N0 in dB-Hz.</param>
/// <param name="Required">C/N0 that the service needs, dB-Hz.</param>
/// <param name="Uncertainty">How far the sum may be off, either way; mostly the transmitter.</param>
public sealed record LinkBudget(ImmutableArray<LinkLine> Lines, Decibels Required, Decibels Uncertainty)
{
    /// <summary>Carrier to noise density, dB-Hz: the sum of the lines.</summary>
    public Decibels CarrierToNoiseDensity => Lines.Aggregate(Decibels.Zero, (sum, line) => sum + line.Value);

    /// <summary>What is left above the need of the service; negative when it falls short.</summary>
    public Decibels Margin => CarrierToNoiseDensity - Required;
}
