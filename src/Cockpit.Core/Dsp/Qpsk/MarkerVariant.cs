using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>All that a receiver must know of a transmission besides its rates.</summary>
/// <param name="Sent">What the transmitter does.</param>
/// <param name="Mirrored">Whether the symbols arrive conjugated: I and Q exchanged, or a mirrored spectrum.</param>
/// <remarks>With code 1/2 an inverted second output looks the same as a mirrored spectrum; it is told as the latter.</remarks>
internal readonly record struct MarkerVariant(TransmitVariant Sent, bool Mirrored);
