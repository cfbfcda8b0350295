using System.Collections.Immutable;
using Cockpit.Core.Link;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares look angles and Doppler with folders 02_look_angles and 04_doppler.</summary>
public static class LookTables
{
    private static readonly string[] Sources = ["sf", "pl"]; // a general-purpose astronomy library; the plain textbook chain

    /// <summary>Azimuth, elevation, range and range rate through thirteen passes, against both columns of values.</summary>
    /// <param name="scene">Satellites and stations.</param>
    /// <param name="lookAnglesCsv">Text of look_angles.csv.</param>
    public static ImmutableArray<TableCheck> Compare(ReferenceScene scene, string lookAnglesCsv)
    {
        ArgumentNullException.ThrowIfNull(scene);
        const string File = "02_look_angles/look_angles.csv";
        var azimuth = new DifferenceTally(File, "azimuth * cos(elevation)", 1e-5, "deg");
        var elevation = new DifferenceTally(File, "elevation", 1e-5, "deg");
        var range = new DifferenceTally(File, "range", 1e-4, "km");
        var rate = new DifferenceTally(File, "range rate", 1e-6, "km/s");
        foreach (ReferenceRow row in ReferenceReader.Rows(lookAnglesCsv))
        {
            LookAngles? look = scene.Track(row.Text("satellite"), row.Text("station")).At(ReferenceScene.Utc(row, "utc"));
            foreach (string source in Sources)
            {
                double across = look is { } l ? Math.IEEERemainder(l.Azimuth.Degrees - row.Number("az_" + source), 360.0) * l.Elevation.Cos() : double.NaN;
                azimuth.Add(across);
                elevation.Add(look?.Elevation.Degrees ?? double.NaN, row.Number("el_" + source));
                range.Add(look?.RangeKm ?? double.NaN, row.Number($"range_{source}_km"));
                rate.Add(look?.RangeRateKmPerSec ?? double.NaN, row.Number($"rr_{source}_km_s"));
            }
        }

        return [azimuth.Result(), elevation.Result(), range.Result(), rate.Result()];
    }

    /// <summary>Shift and rate through one pass at 1.7 GHz.</summary>
    /// <param name="scene">Satellites and stations.</param>
    /// <param name="dopplerCsv">Text of doppler.csv.</param>
    public static ImmutableArray<TableCheck> CompareDoppler(ReferenceScene scene, string dopplerCsv)
    {
        ArgumentNullException.ThrowIfNull(scene);
        const string File = "04_doppler/doppler.csv";
        var carrier = new Frequency(1.7e9);
        var formula = new DifferenceTally(File, "shift from the given range rate", 0.01, "Hz");
        var shift = new DifferenceTally(File, "shift from the elements", 1.0, "Hz");
        var rate = new DifferenceTally(File, "rate of the shift", 0.05, "Hz/s");
        SatelliteTrack track = scene.Track("BRACKWING 5", "LOWLAND");
        foreach (ReferenceRow row in ReferenceReader.Rows(dopplerCsv))
        {
            DateTimeOffset utc = ReferenceScene.Utc(row, "utc");
            double published = row.Number("doppler_hz");
            formula.Add(Doppler.Shift(carrier, row.Number("range_rate_km_s")).Hertz, published);
            shift.Add(track.At(utc) is { } look ? Doppler.Shift(carrier, look.RangeRateKmPerSec).Hertz : double.NaN, published);
            rate.Add(
                track.RatesAt(utc) is { } rates ? Doppler.RateHertzPerSecond(carrier, rates.RangeAccelerationKmPerSec2) : double.NaN,
                row.Number("doppler_rate_hz_s"));
        }

        return [formula.Result(), shift.Result(), rate.Result()];
    }
}
