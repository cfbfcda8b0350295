using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>Everything of a link but the geometry: evaluated along a pass.</summary>
public sealed record LinkModel
{
    /// <summary>Carrier.</summary>
    public Frequency Carrier { get; init; } = Frequency.FromMegahertz(1700);

    /// <summary>What is sent.</summary>
    public Service Service { get; init; } = Service.SplitPhase665k;

    /// <summary>Dish, feed and amplifier.</summary>
    public ReceivingDish Dish { get; init; } = new();

    /// <summary>How strongly it is sent.</summary>
    public EirpCurve Eirp { get; init; } = EirpCurve.Typical;

    /// <summary>The budget line by line.</summary>
    /// <param name="elevation">Of the satellite.</param>
    /// <param name="rangeKm">Its distance, km, positive.</param>
    public LinkBudget Budget(Angle elevation, double rangeKm)
    {
        Terms terms = TermsAt(elevation, rangeKm);
        return new LinkBudget(
            [
                new("EIRP", terms.EirpDbw, "setting, dB above 1 W"),
                new("free space", -terms.FreeSpace, "ITU-R P.525, range of the orbit"),
                new("atmosphere", -terms.Atmosphere, "clear air, ITU-R P.676"),
                new("polarisation", -Dish.PolarisationLoss, "setting"),
                new("pointing", -terms.Pointing, "12 (error / beamwidth)²"),
                new("G/T", new(terms.FigureOfMerit.DecibelsPerKelvin), "dish, sky, ground, amplifier"),
                new("Boltzmann", -Decibels.FromRatio(Noise.Boltzmann), "exact"),
            ],
            Service.RequiredCarrierToNoiseDensity,
            Eirp.Uncertainty);
    }

    /// <summary>C/N0 to expect of a dish that is held with its usual error, dB-Hz: the sum of the budget, without its words.</summary>
    /// <param name="elevation">Of the satellite.</param>
    /// <param name="rangeKm">Its distance, km, positive.</param>
    public Decibels ExpectedCarrierToNoiseDensity(Angle elevation, double rangeKm)
    {
        Terms terms = TermsAt(elevation, rangeKm);
        return Modulation.CarrierToNoiseDensity(
            terms.EirpDbw, terms.FigureOfMerit, terms.FreeSpace + terms.Atmosphere + Dish.PolarisationLoss + terms.Pointing);
    }

    /// <summary>Margin to expect of a dish that is held with its usual error; negative when the picture is not clean.</summary>
    /// <param name="elevation">Of the satellite.</param>
    /// <param name="rangeKm">Its distance, km, positive.</param>
    public Decibels ExpectedMargin(Angle elevation, double rangeKm) =>
        ExpectedCarrierToNoiseDensity(elevation, rangeKm) - Service.RequiredCarrierToNoiseDensity;

    private Terms TermsAt(Angle elevation, double rangeKm) => new(
        new(Eirp.At(elevation).Value - 30.0),
        PathLoss.FreeSpace(Carrier, rangeKm * 1e3),
        PathLoss.Atmosphere(elevation),
        Antenna.PointingLoss(Dish.PointingError, Dish.BeamWidth(Carrier)),
        Dish.FigureOfMerit(Carrier, elevation));

    private readonly record struct Terms(Decibels EirpDbw, Decibels FreeSpace, Decibels Atmosphere, Decibels Pointing, FigureOfMerit FigureOfMerit);
}
