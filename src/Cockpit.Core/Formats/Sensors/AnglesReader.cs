using Cockpit.Core.Sensing;

namespace Cockpit.Core.Formats.Sensors;

/// <summary>Reads the angles of a browser's orientation events, one after the other; one for each device. Not safe from several threads.</summary>
/// <param name="options">What a person said of the device.</param>
public sealed class AnglesReader(SensorOptions options)
{
    private double _lastBeta = 90.0;

    /// <summary>Reads the angles of one event; near upright a browser leaves beta out, then it is a right angle.</summary>
    /// <param name="alpha">About z, degrees.</param>
    /// <param name="beta">About x, degrees.</param>
    /// <param name="gamma">About y, degrees.</param>
    /// <param name="north">What alpha is counted from, unless the person said something else.</param>
    /// <param name="sample">Where the axis points.</param>
    /// <returns>What is wrong, a few words; null when nothing is.</returns>
    public string? Read(double? alpha, double? beta, double? gamma, SensorNorth north, out SensorSample sample)
    {
        SensorFields fields = new();
        sample = default;
        foreach ((string name, double? value) in new[] { ("alpha", alpha), ("beta", beta), ("gamma", gamma) })
        {
            if (value is { } degrees && fields.Set(name, degrees) is { } problem)
            {
                return problem;
            }
        }

        fields.PutUprightBeta(_lastBeta);
        _lastBeta = fields.Beta ?? _lastBeta;
        string? wrong = fields.Read(options, out SensorSample read);
        sample = options.North == SensorNorth.Unknown ? read with { North = north } : read;
        return wrong;
    }
}
