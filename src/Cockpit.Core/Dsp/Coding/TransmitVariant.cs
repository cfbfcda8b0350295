namespace Cockpit.Core.Dsp.Coding;

/// <summary>What two transmitters of the same standard may do differently before the modulator.</summary>
/// <param name="Rate">How much of the convolutional code is sent.</param>
/// <param name="InvertSecond">Whether the second output of the encoder is inverted.</param>
/// <param name="Differential">Whether the bits go through NRZ-M before the encoder.</param>
public readonly record struct TransmitVariant(CodeRate Rate, bool InvertSecond, bool Differential);
