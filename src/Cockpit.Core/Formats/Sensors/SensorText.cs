using System.Globalization;
using Cockpit.Core.Formats.Fixes;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Sensors;

/// <summary>How a sensor writes what it says.</summary>
public enum SensorForm
{
    /// <summary>az= el= roll=</summary>
    Pairs = 0,

    /// <summary>A JSON object of the same names.</summary>
    Json = 1,

    /// <summary>A unit quaternion of a device whose top edge points along the dish.</summary>
    Quaternion = 2,

    /// <summary>NMEA 0183: HDT and XDR.</summary>
    Nmea = 3,

    /// <summary>The elevation alone, as an inclinometer tells it.</summary>
    Inclinometer = 4,
}

/// <summary>Writes the lines of a sensor; <see cref="SensorReader"/> reads them back to the last digit written.</summary>
public static class SensorText
{
    /// <summary>The lines of one sample, each with its line end.</summary>
    /// <param name="sample">Azimuth from true north, and elevation.</param>
    /// <param name="form">How it is written.</param>
    public static string Of(SensorSample sample, SensorForm form)
    {
        double azimuth = sample.Azimuth?.Degrees ?? 0.0;
        double elevation = sample.Elevation?.Degrees ?? 0.0;
        double roll = sample.Roll?.Degrees ?? 0.0;
        return form switch
        {
            SensorForm.Json => string.Create(CultureInfo.InvariantCulture, $"{{\"az\":{azimuth:0.000},\"el\":{elevation:0.000},\"roll\":{roll:0.000},\"north\":\"true\"}}\n"),
            SensorForm.Quaternion => Quaternion(Attitude.FromHeading(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation), Angle.FromDegrees(roll))),
            SensorForm.Nmea => $"{NmeaSentence.Of(string.Create(CultureInfo.InvariantCulture, $"HCHDT,{azimuth:0.00},T"))}\r\n"
                + $"{NmeaSentence.Of(string.Create(CultureInfo.InvariantCulture, $"YXXDR,A,{elevation:0.00},D,PTCH,A,{roll:0.00},D,ROLL"))}\r\n",
            SensorForm.Inclinometer => string.Create(CultureInfo.InvariantCulture, $"el={elevation:0.000}\n"),
            _ => string.Create(CultureInfo.InvariantCulture, $"az={azimuth:0.000} el={elevation:0.000} roll={roll:0.000} north=true\n"),
        };
    }

    private static string Quaternion(Attitude q) =>
        string.Create(CultureInfo.InvariantCulture, $"qx={q.X:0.0000000} qy={q.Y:0.0000000} qz={q.Z:0.0000000} qw={q.W:0.0000000} north=true\n");
}
