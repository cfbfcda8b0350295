namespace Cockpit.Core.Signal;

/// <summary>What a steering value is; values of two quantities cannot be compared.</summary>
public enum SteeringQuantity
{
    /// <summary>Power relative to something constant, dB.</summary>
    Level = 0,

    /// <summary>Signal to noise ratio, dB.</summary>
    SignalToNoise = 1,

    /// <summary>Carrier to noise density, dB-Hz.</summary>
    CarrierToNoiseDensity = 2,
}

/// <summary>The quantities as they are written.</summary>
public static class SteeringQuantities
{
    /// <summary>"level", "SNR" or "C/N0".</summary>
    public static string Symbol(this SteeringQuantity quantity) => quantity switch
    {
        SteeringQuantity.SignalToNoise => "SNR",
        SteeringQuantity.CarrierToNoiseDensity => "C/N0",
        _ => "level",
    };
}
