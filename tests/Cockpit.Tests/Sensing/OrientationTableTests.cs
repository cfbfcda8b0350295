using System.Collections.Immutable;
using Cockpit.Checks;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using CsCheck;
using Xunit.Abstractions;

namespace Cockpit.Tests.Sensing;

/// <summary>Attitudes of a phone; sources and tolerances stand in the README of 12_orientation.</summary>
public sealed class OrientationTableTests(ITestOutputHelper output)
{
    private static readonly ImmutableArray<TableCheck> Checks = OrientationTables.Compare(ReferenceFiles.Text);

    [Fact]
    public void Every_table_agrees_within_its_tolerance()
    {
        Assert.All(Checks, check => output.WriteLine(check.ToString()));
        Assert.All(Checks, check => Assert.True(check.Ok, check.ToString()));
    }

    [Theory]
    [InlineData("axes from angles, elevation", 4 * 327)]
    [InlineData("quaternion", 327)]
    [InlineData("arrow to the right", 24)]
    [InlineData("dish, elevation", 40)]
    [InlineData("alpha from the heading", 12)]
    public void The_whole_table_was_compared(string quantity, int values) =>
        Assert.Equal(values, Assert.Single(Checks, check => check.Quantity == quantity).Compared);

    [Fact]
    public void A_wrong_value_fails()
    {
        string mount = ReferenceFiles.Text("12_orientation/mount.csv").Replace("47.608101", "47.608201", StringComparison.Ordinal);
        Assert.Contains(OrientationTables.CompareMount(mount), check => !check.Ok);
        string orientation = ReferenceFiles.Text("12_orientation/orientation.csv").Replace("0.707106781,0.707106781", "0.707106781,0.707106881", StringComparison.Ordinal);
        Assert.Contains(OrientationTables.CompareOrientation(orientation), check => !check.Ok);
    }

    [Fact]
    public void Heading_pitch_and_roll_are_what_they_say() =>
        Gen.Select(Gen.Double[0, 359.9], Gen.Double[-80, 80], Gen.Double[-170, 170]).Sample((heading, pitch, roll) =>
        {
            AxisDirection top = Attitude.FromHeading(Angle.FromDegrees(heading), Angle.FromDegrees(pitch), Angle.FromDegrees(roll)).Direction(DeviceAxis.Top);
            Assert.Equal(0.0, Math.IEEERemainder(top.Azimuth!.Value.Degrees - heading, 360), 9);
            Assert.Equal(pitch, top.Elevation.Degrees, 9);
            Assert.Equal(0.0, Math.IEEERemainder(top.Roll!.Value.Degrees - roll, 360), 9);
        });

    [Theory]
    [InlineData(0, 0, 0, 1, true)]
    [InlineData(0, 0, 0, 0.95, true)]
    [InlineData(0, 0, 0, 0, false)]
    [InlineData(1, 1, 0, 0, false)]
    [InlineData(double.NaN, 0, 0, 1, false)]
    public void Four_numbers_are_an_attitude_only_near_length_one(double x, double y, double z, double w, bool isOne) =>
        Assert.Equal(isOne, Attitude.FromElements(x, y, z, w) is not null);
}
