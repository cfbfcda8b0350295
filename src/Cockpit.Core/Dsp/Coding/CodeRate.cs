namespace Cockpit.Core.Dsp.Coding;

/// <summary>How much of the convolutional code's output is sent.</summary>
public enum CodeRate
{
    /// <summary>Everything: two coded bits for each bit.</summary>
    Half = 0,

    /// <summary>Four coded bits for three bits: of C1 the first and third, of C2 the first and second.</summary>
    ThreeQuarters = 1,
}
