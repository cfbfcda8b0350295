using System.Globalization;
using System.Text;
using Cockpit.Core.Formats.Fixes;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Sensing;
using CsCheck;

namespace Cockpit.Tests.Sensing;

/// <summary>Lines of a sensor on the dish, good and bad ones.</summary>
public sealed class SensorReaderTests
{
    [Theory]
    [InlineData("az=214.5 el=32.0", "214.5 32.0 - Unknown")]
    [InlineData("AZ:-10,EL:5;ignored=x", "350.0 5.0 - Unknown")]
    [InlineData("roll=1.5 pitch=12 heading=370 north=true", "10.0 12.0 1.5 True")]
    [InlineData("t=2026-11-26T10:00:00Z el=12.25", "- 12.3 - Unknown")]
    [InlineData("tilt=45°", "- 45.0 - Unknown")]
    [InlineData("qx=0 qy=0 qz=0 qw=1", "0.0 0.0 0.0 Unknown")]
    [InlineData("alpha=310 beta=95 gamma=0", "230.0 85.0 -180.0 Unknown")]
    [InlineData("{\"az\":12,\"el\":3}", "12.0 3.0 - Unknown")]
    [InlineData("{\"kind\":\"x\",\"orientation\":{\"alpha\":90,\"beta\":30,\"gamma\":0},\"north\":\"magnetic\"}", "270.0 30.0 0.0 Magnetic")]
    [InlineData("{\"pitch\":\"7.5\"}", "- 7.5 - Unknown")]
    [InlineData("# a comment", null)]
    [InlineData("", null)]
    public void A_good_line_is_read(string line, string? sample) => Assert.Equal(sample, Said(new SensorReader(SensorOptions.Usual), line));

    // The sentence of a heading, one of a compass with its deviation, and transducers; names as compass makers write them (E. S. Raymond, NMEA Revealed).
    [Theory]
    [InlineData("HCHDT,101.1,T", "101.1 - - True")]
    [InlineData("HCHDG,101.1,1.6,W,7.1,E", "99.5 - - Magnetic")]
    [InlineData("HCHDG,101.1,,,7.1,W", "101.1 - - Magnetic")]
    [InlineData("YXXDR,A,32.5,D,PTCH,A,-1.5,D,ROLL", "- 32.5 -1.5 Unknown")]
    [InlineData("YXXDR,C,21.5,C,TEMP,A,5,D,pitch", "- 5.0 - Unknown")]
    [InlineData("YXXDR,A,2,D,ROLL", null)]
    [InlineData("GPGGA,1", null)]
    public void A_sentence_is_read(string body, string? sample) => Assert.Equal(sample, Said(new SensorReader(SensorOptions.Usual), NmeaSentence.Of(body)));

    [Theory]
    [InlineData("el=", "f:7")]
    [InlineData("north", "f:1: expected a pair like el=32.0, found 'north'")]
    [InlineData("az=12 el=twenty", "f:10: 'twenty' is not a number")]
    [InlineData("el=91", "f:4: el is 91, outside -90 to 90")]
    [InlineData("el=nan", "f:4: 'nan' is not a number")]
    [InlineData("az=12 north=up", "f:13: 'up' is no north; choose true, magnetic or arbitrary")]
    [InlineData("x=1", "f:1: no azimuth and no elevation; write az=214.5 el=32.0, roll= pitch= heading=, qx= qy= qz= qw= or alpha= beta= gamma=")]
    [InlineData("qx=1 qy=1 qz=0 qw=0", "f:1: qx qy qz qw are no unit quaternion")]
    [InlineData("{\"az\":12", "f:9: not one complete JSON object")]
    [InlineData("{\"el\":1e9}", "f:7: el is 1000000000, outside -90 to 90")]
    [InlineData("$HCHDT,101.1,T*00", "f:15: the checksum says 00, the sentence gives ")]
    public void A_bad_line_is_told_with_its_column(string line, string sentence)
    {
        SensorLineReading read = new SensorReader(SensorOptions.Usual).Read(Encoding.UTF8.GetBytes(line), "f");
        Assert.Null(read.Sample);
        string told = string.Create(CultureInfo.InvariantCulture, $"f:{read.Error!.Column}: {read.Error.Message}");
        Assert.StartsWith(sentence is "f:7" ? "f:4: '' is not a number" : sentence, told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("axis", "camera", "alpha=310 beta=95 gamma=0", "50.0 5.0 0.0 Unknown")]
    [InlineData("axis", "right", "qx=0 qy=0 qz=0 qw=1", "90.0 0.0 0.0 Unknown")]
    [InlineData("north", "arbitrary", "az=5 el=1 north=true", "5.0 1.0 - Arbitrary")]
    public void What_the_person_says_of_the_sensor_counts(string name, string value, string line, string sample) =>
        Assert.Equal(sample, Said(new SensorReader(SensorOptions.Usual.With(name, value)!), line));

    // Chromium sends no beta when the phone stands upright; 90 is right there.
    [Fact]
    public void Upright_a_missing_beta_is_a_right_angle_on_the_side_it_was()
    {
        SensorReader reader = new(SensorOptions.Usual with { Axis = DeviceAxis.Camera });
        Assert.Equal("50.0 0.0 0.0 Unknown", Said(reader, "{\"alpha\":310,\"beta\":null,\"gamma\":0}"));
        Assert.Equal("50.0 5.0 0.0 Unknown", Said(reader, "{\"alpha\":310,\"beta\":95,\"gamma\":0}"));
        _ = Said(reader, "{\"alpha\":310,\"beta\":-91,\"gamma\":0}");
        Assert.Equal("130.0 0.0 180.0 Unknown", Said(reader, "{\"alpha\":50,\"beta\":null,\"gamma\":0}").Replace("-180.0", "180.0", StringComparison.Ordinal));
    }

    [Fact]
    public void Rubbish_never_throws() => Gen.Byte.Array[0, 200].Sample(bytes =>
    {
        SensorReader reader = new(SensorOptions.Usual);
        _ = reader.Read(bytes, "f");
        _ = reader.Read([(byte)'{', .. bytes], "f");
        _ = reader.Read([(byte)'$', .. bytes], "f");
    }, iter: 3000);

    private static string Said(SensorReader reader, string line)
    {
        SensorLineReading read = reader.Read(Encoding.UTF8.GetBytes(line), "f");
        Assert.Null(read.Error);
        return read.Sample is { } sample
            ? string.Create(CultureInfo.InvariantCulture, $"{Number(sample.Azimuth?.Degrees)} {Number(sample.Elevation?.Degrees)} {Number(sample.Roll?.Degrees)} {sample.North}")
            : null!;
    }

    private static string Number(double? value) => value is { } number ? (Math.Round(number, 1, MidpointRounding.AwayFromZero) + 0.0).ToString("0.0", CultureInfo.InvariantCulture) : "-";
}
