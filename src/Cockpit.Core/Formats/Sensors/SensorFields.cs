using System.Globalization;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Sensors;

/// <summary>The values of one record of a pointing sensor by their names, until it is complete.</summary>
internal sealed class SensorFields
{
    private enum Field
    {
        Azimuth = 0,
        Elevation = 1,
        Roll = 2,
        Alpha = 3,
        Beta = 4,
        Gamma = 5,
        X = 6,
        Y = 7,
        Z = 8,
        W = 9,
    }

    private static readonly Dictionary<string, Field> Names = new(StringComparer.OrdinalIgnoreCase)
    {
        ["az"] = Field.Azimuth, ["azimuth"] = Field.Azimuth, ["azimuth_deg"] = Field.Azimuth, ["heading"] = Field.Azimuth, ["hdg"] = Field.Azimuth, ["yaw"] = Field.Azimuth, ["pan"] = Field.Azimuth,
        ["el"] = Field.Elevation, ["elevation"] = Field.Elevation, ["elevation_deg"] = Field.Elevation, ["pitch"] = Field.Elevation, ["tilt"] = Field.Elevation, ["inclination"] = Field.Elevation,
        ["roll"] = Field.Roll, ["roll_deg"] = Field.Roll,
        ["alpha"] = Field.Alpha, ["beta"] = Field.Beta, ["gamma"] = Field.Gamma,
        ["qx"] = Field.X, ["qy"] = Field.Y, ["qz"] = Field.Z, ["qw"] = Field.W,
    };

    private readonly double?[] _values = new double?[10];
    private SensorNorth _north;

    /// <summary>Whether a name means something here.</summary>
    public static bool Knows(string name) => Names.ContainsKey(name) || IsNorth(name);

    /// <summary>Whether it is the name of what the azimuth is counted from.</summary>
    public static bool IsNorth(string name) => string.Equals(name, "north", StringComparison.OrdinalIgnoreCase);

    /// <summary>Sets a number.</summary>
    /// <param name="name">A name that is known.</param>
    /// <param name="value">Degrees, or an element of a quaternion.</param>
    /// <returns>What is wrong with it; null when nothing is.</returns>
    public string? Set(string name, double value)
    {
        Field field = Names[name];
        (double least, double most) = field switch
        {
            Field.Azimuth or Field.Alpha => (-360.0, 720.0),
            Field.Elevation => (-90.0, 90.0),
            Field.Roll or Field.Beta or Field.Gamma => (-360.0, 360.0),
            _ => (-1.1, 1.1),
        };

        // Written so that NaN is outside.
        if (!(value >= least && value <= most))
        {
            return string.Create(CultureInfo.InvariantCulture, $"{name} is {value:0.###}, outside {least:0.#} to {most:0.#}");
        }

        _values[(int)field] = value;
        return null;
    }

    /// <summary>Sets what the azimuth is counted from.</summary>
    public bool SetNorth(string word)
    {
        _north = SensorOptions.Usual.With("north", word)?.North ?? SensorNorth.Unknown;
        return _north != SensorNorth.Unknown;
    }

    /// <summary>Near upright a browser leaves beta out of an event that holds the two others: it is a right angle then.</summary>
    public void PutUprightBeta(double last) => _values[(int)Field.Beta] ??= this[Field.Alpha] is not null && this[Field.Gamma] is not null ? Math.CopySign(90.0, last) : null;

    /// <summary>The angle beta; null where there is none.</summary>
    public double? Beta => this[Field.Beta];

    /// <summary>What they mean together.</summary>
    /// <param name="options">What a person said of the sensor.</param>
    /// <param name="sample">The sample.</param>
    /// <returns>What is wrong; null when nothing is.</returns>
    public string? Read(SensorOptions options, out SensorSample sample)
    {
        SensorNorth north = options.North != SensorNorth.Unknown ? options.North : _north;
        sample = default;
        if (All(Field.X, Field.Y, Field.Z, Field.W) is [var x, var y, var z, var w])
        {
            if (Attitude.FromElements(x, y, z, w) is not { } turned)
            {
                return "qx qy qz qw are no unit quaternion";
            }

            sample = Of(turned, options, north);
            return null;
        }

        if (All(Field.Alpha, Field.Beta, Field.Gamma) is [var alpha, var beta, var gamma])
        {
            sample = Of(Attitude.FromDeviceAngles(Angle.FromDegrees(alpha), Angle.FromDegrees(beta), Angle.FromDegrees(gamma)), options, north);
            return null;
        }

        sample = new SensorSample(Degrees(Field.Azimuth)?.WrappedToTurn(), Degrees(Field.Elevation), Degrees(Field.Roll)?.WrappedToHalfTurn(), north);
        return sample.IsEmpty ? "no azimuth and no elevation; write az=214.5 el=32.0, roll= pitch= heading=, qx= qy= qz= qw= or alpha= beta= gamma=" : null;
    }

    private double? this[Field field] => _values[(int)field];

    private Angle? Degrees(Field field) => this[field] is { } degrees ? Angle.FromDegrees(degrees) : null;

    private double[] All(params ReadOnlySpan<Field> fields)
    {
        double[] values = new double[fields.Length];
        for (int i = 0; i < fields.Length; i++)
        {
            if (this[fields[i]] is not { } value)
            {
                return [];
            }

            values[i] = value;
        }

        return values;
    }

    private static SensorSample Of(Attitude attitude, SensorOptions options, SensorNorth north)
    {
        AxisDirection axis = attitude.Direction(options.Axis);
        return new SensorSample(axis.Azimuth, axis.Elevation, axis.Roll, north);
    }
}
