namespace Cockpit.Core.Orbit.Theory;

/// <summary>How a propagation ended; the numbers are the error codes published with AIAA 2006-6753.</summary>
public enum PropagationStatus
{
    /// <summary>The state is good.</summary>
    Good = 0,

    /// <summary>The mean eccentricity left [-0.001, 1): the drag terms carried the elements out of the model.</summary>
    MeanEccentricityOutOfRange = 1,

    /// <summary>The mean motion is zero or below.</summary>
    MeanMotionNotPositive = 2,

    /// <summary>The eccentricity with lunar and solar periodics left [0, 1].</summary>
    PerturbedEccentricityOutOfRange = 3,

    /// <summary>The semi-latus rectum is below zero.</summary>
    SemiLatusRectumNegative = 4,

    /// <summary>Reserved by the publication for elements that are below the ground at their epoch; the improved model no longer gives it.</summary>
    EpochElementsSuborbital = 5,

    /// <summary>The satellite is below one earth radius: it has decayed.</summary>
    Decayed = 6,
}

/// <summary>Words for the codes.</summary>
public static class PropagationStatusText
{
    /// <summary>One clause that a person understands, for a sentence about one satellite and instant.</summary>
    public static string Describe(this PropagationStatus status) => status switch
    {
        PropagationStatus.Good => "the position is good",
        PropagationStatus.MeanEccentricityOutOfRange => "the mean eccentricity left its range; the element set is too old or wrong for this instant",
        PropagationStatus.MeanMotionNotPositive => "the mean motion is not positive; the element set is wrong",
        PropagationStatus.PerturbedEccentricityOutOfRange => "the eccentricity left its range under the pull of sun and moon; the element set is wrong",
        PropagationStatus.SemiLatusRectumNegative => "the semi-latus rectum is negative; the element set is wrong",
        PropagationStatus.EpochElementsSuborbital => "the orbit lies below the ground at its epoch",
        PropagationStatus.Decayed => "the satellite is below the surface of the earth: it has decayed, or the element set is too old",
        _ => "the propagation ended with an unknown code",
    };
}
