namespace Cockpit.Core.Signal;

/// <summary>One measurement of the received signal; what the sender did not say is null.</summary>
public sealed record SignalSample
{
    /// <summary>When it was measured by the sender's clock, UTC; null = take the time of arrival.</summary>
    public DateTimeOffset? Utc { get; init; }

    /// <summary>Power relative to something constant, dB, -250..250.</summary>
    public double? LevelDb { get; init; }

    /// <summary>Signal to noise ratio, dB, -250..250.</summary>
    public double? SnrDb { get; init; }

    /// <summary>Carrier to noise density, dB-Hz, -250..250.</summary>
    public double? Cn0DbHz { get; init; }

    /// <summary>Carrier offset, measured minus tuned, Hz.</summary>
    public double? OffsetHz { get; init; }

    /// <summary>Whether the decoder is locked.</summary>
    public bool? Locked { get; init; }

    /// <summary>Frames received so far.</summary>
    public long? Frames { get; init; }

    /// <summary>Frames lost so far, where the sender can tell; since its first lock.</summary>
    public long? FramesLost { get; init; }

    /// <summary>Bit error ratio, 0..1.</summary>
    public double? BitErrorRatio { get; init; }

    /// <summary>Share of clipped samples, 0..1.</summary>
    public double? Clipped { get; init; }

    /// <summary>The value that steers, dB: SNR, else C/N0, else level.</summary>
    public double? SteeringDb => SnrDb ?? Cn0DbHz ?? LevelDb;

    /// <summary>What that value is; null when there is none.</summary>
    public SteeringQuantity? Steers => this switch
    {
        { SnrDb: not null } => SteeringQuantity.SignalToNoise,
        { Cn0DbHz: not null } => SteeringQuantity.CarrierToNoiseDensity,
        { LevelDb: not null } => SteeringQuantity.Level,
        _ => null,
    };

    /// <summary>This measurement with what one from just before holds and it does not: a receiver may print each value on a line of its own.</summary>
    /// <param name="earlier">The one before.</param>
    public SignalSample Over(SignalSample earlier)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        return new SignalSample
        {
            Utc = Utc ?? earlier.Utc,
            LevelDb = LevelDb ?? earlier.LevelDb,
            SnrDb = SnrDb ?? earlier.SnrDb,
            Cn0DbHz = Cn0DbHz ?? earlier.Cn0DbHz,
            OffsetHz = OffsetHz ?? earlier.OffsetHz,
            Locked = Locked ?? earlier.Locked,
            Frames = Frames ?? earlier.Frames,
            FramesLost = FramesLost ?? earlier.FramesLost,
            BitErrorRatio = BitErrorRatio ?? earlier.BitErrorRatio,
            Clipped = Clipped ?? earlier.Clipped,
        };
    }
}
