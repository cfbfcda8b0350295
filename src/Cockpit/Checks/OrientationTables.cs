using System.Collections.Immutable;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares attitudes, axes, roll and mount with the tables of folder 12_orientation.</summary>
public static class OrientationTables
{
    private const string Folder = "12_orientation/";
    private const double Tolerance = 1e-5;
    private static readonly (string Name, DeviceAxis Axis)[] Axes = [("mz", DeviceAxis.Camera), ("py", DeviceAxis.Top), ("pz", DeviceAxis.Screen), ("px", DeviceAxis.Right)];

    /// <summary>One line per table and quantity.</summary>
    /// <param name="text">Gives the text of a file by its path under the reference folder.</param>
    public static ImmutableArray<TableCheck> Compare(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. CompareOrientation(text(Folder + "orientation.csv")),
            .. CompareScreenFrame(text(Folder + "screen_frame.csv")),
            .. CompareMount(text(Folder + "mount.csv")),
            .. CompareHeading(text(Folder + "ios_heading.csv")),
        ];
    }

    /// <summary>Four axes of a device from its angles and from its quaternion.</summary>
    /// <param name="csv">Text of orientation.csv.</param>
    public static ImmutableArray<TableCheck> CompareOrientation(string csv)
    {
        var angles = new AxisTally(Folder + "orientation.csv", "axes from angles");
        var elements = new AxisTally(Folder + "orientation.csv", "axes from the quaternion");
        var quaternion = new DifferenceTally(Folder + "orientation.csv", "quaternion", 1e-8, "");
        foreach (ReferenceRow row in ReferenceReader.Rows(csv))
        {
            Attitude attitude = Device(row);
            Attitude published = Elements(row, "");
            quaternion.Add(Difference(attitude, published));
            foreach ((string name, DeviceAxis axis) in Axes)
            {
                angles.Add(attitude.Direction(axis), row, "_" + name);
                elements.Add(published.Direction(axis), row, "_" + name);
            }
        }

        return [.. angles.Results(), .. elements.Results(), quaternion.Result()];
    }

    /// <summary>Quaternions in the frame of a turned picture, and where right is on the page.</summary>
    /// <param name="csv">Text of screen_frame.csv.</param>
    public static ImmutableArray<TableCheck> CompareScreenFrame(string csv)
    {
        var camera = new AxisTally(Folder + "screen_frame.csv", "camera from the screen's frame");
        var device = new DifferenceTally(Folder + "screen_frame.csv", "quaternion of the device", 1e-8, "");
        var arrow = new DifferenceTally(Folder + "screen_frame.csv", "arrow to the right", Tolerance, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(csv))
        {
            var angle = Angle.FromDegrees(row.Number("screen_angle"));
            var attitude = Attitude.FromScreenFrame(Elements(row, "_scr"), angle);
            device.Add(Difference(attitude, Elements(row, "_dev")));
            camera.Add(Device(row).Direction(DeviceAxis.Camera), row, "_mz");
            arrow.AddDegrees(Device(row).Direction(DeviceAxis.Camera).ArrowRightOnPage(angle)?.Degrees ?? double.NaN, row.Number("arrow_right_on_screen"));
        }

        return [.. camera.Results(), device.Result(), arrow.Result()];
    }

    /// <summary>A dish to which a phone is fixed askew.</summary>
    /// <param name="csv">Text of mount.csv.</param>
    public static ImmutableArray<TableCheck> CompareMount(string csv)
    {
        var azimuth = new DifferenceTally(Folder + "mount.csv", "dish, azimuth cos(elevation)", Tolerance, "deg");
        var elevation = new DifferenceTally(Folder + "mount.csv", "dish, elevation", Tolerance, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(csv))
        {
            var phone = new AxisDirection(Degrees(row, "az_phone"), Degrees(row, "el_phone"), Degrees(row, "roll_phone"));
            AxisDirection dish = phone.Mounted(Degrees(row, "mount_right"), Degrees(row, "mount_up"));
            azimuth.Add(Math.IEEERemainder((dish.Azimuth?.Degrees ?? double.NaN) - row.Number("az_dish"), 360.0) * Degrees(row, "el_dish").Cos());
            elevation.Add(dish.Elevation.Degrees, row.Number("el_dish"));
        }

        return [azimuth.Result(), elevation.Result()];
    }

    /// <summary>Alpha from a compass heading of the top edge.</summary>
    /// <param name="csv">Text of ios_heading.csv.</param>
    public static ImmutableArray<TableCheck> CompareHeading(string csv)
    {
        var alpha = new DifferenceTally(Folder + "ios_heading.csv", "alpha from the heading", 1e-3, "deg");
        var delta = new DifferenceTally(Folder + "ios_heading.csv", "its zero", 1e-3, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(csv))
        {
            var found = Attitude.AlphaOfHeading(Degrees(row, "heading"));
            alpha.AddDegrees(found.Degrees, row.Number("alpha_abs"));
            delta.AddDegrees(found.Degrees - row.Number("alpha_rel"), row.Number("delta"));
        }

        return [alpha.Result(), delta.Result()];
    }

    private static Attitude Device(ReferenceRow row) => Attitude.FromDeviceAngles(Degrees(row, "alpha"), Degrees(row, "beta"), Degrees(row, "gamma"));

    private static Attitude Elements(ReferenceRow row, string ending) =>
        new(row.Number("qx" + ending), row.Number("qy" + ending), row.Number("qz" + ending), row.Number("qw" + ending));

    private static Angle Degrees(ReferenceRow row, string column) => Angle.FromDegrees(row.Number(column));

    /// <summary>Largest difference of an element, up to the common sign.</summary>
    private static double Difference(Attitude ours, Attitude published)
    {
        double sign = (ours.X * published.X) + (ours.Y * published.Y) + (ours.Z * published.Z) + (ours.W * published.W) < 0.0 ? -1.0 : 1.0;
        double[] apart = [(sign * ours.X) - published.X, (sign * ours.Y) - published.Y, (sign * ours.Z) - published.Z, (sign * ours.W) - published.W];
        return apart.Max(Math.Abs);
    }

    /// <summary>Azimuth, elevation and roll as they lie on the sphere.</summary>
    private sealed class AxisTally(string table, string what)
    {
        private readonly DifferenceTally _azimuth = new(table, what + ", azimuth", Tolerance, "deg");
        private readonly DifferenceTally _elevation = new(table, what + ", elevation", Tolerance, "deg");
        private readonly DifferenceTally _roll = new(table, what + ", roll", Tolerance, "deg");

        public void Add(AxisDirection ours, ReferenceRow row, string ending)
        {
            double high = row.Number("el" + ending);
            _elevation.Add(ours.Elevation.Degrees, high);
            if (row.Text("az" + ending).Length == 0)
            {
                return;
            }

            double level = Angle.FromDegrees(high).Cos();
            _azimuth.Add(Math.IEEERemainder((ours.Azimuth?.Degrees ?? double.NaN) - row.Number("az" + ending), 360.0) * level);
            _roll.Add(Math.IEEERemainder((ours.Roll?.Degrees ?? double.NaN) - row.Number("roll" + ending), 360.0) * level);
        }

        public IEnumerable<TableCheck> Results()
        {
            yield return _azimuth.Result();
            yield return _elevation.Result();
            yield return _roll.Result();
        }
    }
}
