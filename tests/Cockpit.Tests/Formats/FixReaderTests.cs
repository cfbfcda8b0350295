using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Fixes;

namespace Cockpit.Tests.Formats;

/// <summary>Sentences of NMEA 0183 and reports of gpsd.</summary>
public sealed class FixReaderTests
{
    // Published examples, with their checksums: GGA and RMC 123519, ZDA 201530.00 (D. DePriest, NMEA data); RMC 225446 (P. Bennett, the NMEA FAQ);
    // GNS 014035.00 and GGA 172814.0 (NMEA-0183 messages of a receiver's manual, as quoted in NMEA Revealed by E. S. Raymond).
    public static TheoryData<string, double, double, double?> Places => new()
    {
        { "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47", 48 + (7.038 / 60), 11 + (31.0 / 60), 545.4 + 46.9 },
        { "$GPGGA,172814.0,3723.46587704,N,12202.26957864,W,2,6,1.2,18.893,M,-25.669,M,2.0,0031*4F", 37 + (23.46587704 / 60), -(122 + (2.26957864 / 60)), 18.893 - 25.669 },
        { "$GNGNS,014035.00,4332.69262,S,17235.48549,E,RR,13,0.9,25.63,11.24,,*70", -(43 + (32.69262 / 60)), 172 + (35.48549 / 60), 25.63 + 11.24 },
        { "$GPRMC,225446,A,4916.45,N,12311.12,W,000.5,054.7,191194,020.3,E*68", 49 + (16.45 / 60), -(123 + (11.12 / 60)), null },
        { "$GPGLL,5057.970,N,00146.110,E,142451,A*27", 50 + (57.970 / 60), 1 + (46.110 / 60), null },
    };

    [Theory]
    [MemberData(nameof(Places))]
    public void Published_sentences_give_their_place(string sentence, double north, double east, double? height)
    {
        FixReading read = new NmeaReader().Read(Encoding.ASCII.GetBytes(sentence), "place");
        Assert.Null(read.Error);
        Assert.Equal(north, read.Fix!.Value.Latitude.Degrees, 9);
        Assert.Equal(east, read.Fix.Value.Longitude.Degrees, 9);
        Assert.Equal(height, read.Fix.Value.HeightMetres is { } metres ? Math.Round(metres, 6) : null);
    }

    [Fact]
    public void The_day_comes_from_RMC_or_ZDA_and_GGA_joins_it_over_midnight()
    {
        NmeaReader reader = new();
        Assert.Null(Gga(reader, "235958.00"));
        Read(reader, "GPZDA,235958.50,25,11,2026,00,00");
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 23, 59, 59, TimeSpan.Zero), Gga(reader, "235959.00"));
        Assert.Equal(new DateTimeOffset(2026, 11, 26, 0, 0, 0, TimeSpan.Zero).AddTicks(2_500_000), Gga(reader, "000000.25"));
        Read(reader, "GNRMC,000001,A,4748.0,N,01112.0,E,0.0,,261126,,,A");
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 23, 59, 59, TimeSpan.Zero), Gga(reader, "235959"));
    }

    [Theory]
    [InlineData("GPGGA,123519,,,,,0,00,,,M,,M,,")]
    [InlineData("GPGGA,123519,4807.038,N,01131.000,E,0,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,123519,4807.038,N,01131.000,E,8,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,123519,9907.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,123519,4860.000,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,123519,4807.038,X,01131.000,E,1,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,123519,4807.038,N,1131.000,E,1,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPRMC,123519,V,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W")]
    [InlineData("GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W,S")]
    [InlineData("GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W,N")]
    [InlineData("GNGNS,014035.00,4332.69262,S,17235.48549,E,NN,13,0.9,25.63,11.24,,")]
    public void A_place_that_is_none_or_not_of_satellites_is_no_fix(string body)
    {
        FixReading read = new NmeaReader().Read(Encoding.ASCII.GetBytes(NmeaSentence.Of(body)), "place");
        Assert.Null(read.Error);
        Assert.Null(read.Fix);
        Assert.True(read.IsWithoutFix);
    }

    [Theory]
    [InlineData("$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*46", 63, "the checksum says 46, the sentence gives 47: it was damaged on its way")]
    [InlineData("$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,", 63, "the checksum is missing: * and two hexadecimal digits at the end; set the receiver to send it")]
    [InlineData("$GPGGA,123519*4", 14, "the checksum is missing: * and two hexadecimal digits at the end; set the receiver to send it")]
    [InlineData("snr=7.4", 1, "a sentence begins with $ or !; is that NMEA 0183, and the speed of the line right?")]
    public void A_damaged_sentence_says_what_is_wrong_and_where(string line, int column, string message)
    {
        FixReading read = new NmeaReader().Read(Encoding.ASCII.GetBytes(line), "place");
        Assert.Equal((column, message), (read.Error!.Column, read.Error.Message));
    }

    [Theory]
    [InlineData("")]
    [InlineData("$GPGSV,3,1,11,03,03,111,00,04,15,270,00,06,01,010,00,13,06,292,00*74")]
    [InlineData("\\s:compass,c:1438489697*13\\$IIDBT,035.53,f,010.83,M,005.85,F*23")]
    public void Other_sentences_say_nothing(string line) => Assert.Equal(default, new NmeaReader().Read(Encoding.ASCII.GetBytes(line), "place"));

    [Fact]
    public void A_leap_second_is_the_next_one_and_no_other_number_beyond_it()
    {
        Assert.Equal(new TimeSpan(24, 0, 0), NmeaFields.TimeOfDay("235960"u8));
        Assert.Equal(new TimeSpan(0, 12, 35, 19, 500), NmeaFields.TimeOfDay("123519.50"u8));
        Assert.All(new[] { "", "1235", "246000", "236060", "235961", "12351x", "-12519", "123519.5.5", "1e3" }, text => Assert.Null(NmeaFields.TimeOfDay(Encoding.ASCII.GetBytes(text))));
        Assert.Null(NmeaFields.Day("310226"u8));
    }

    // The example of gpsd_json(5), gpsd 3.22, class TPV.
    [Fact]
    public void The_report_of_the_gpsd_manual_gives_place_time_and_doubt()
    {
        FixReading read = Gpsd("""{"class":"TPV","device":"/dev/pts/1","time":"2005-06-08T10:34:48.283Z","ept":0.005,"lat":46.498293369,"lon":7.567411672,"alt":1343.127,"altHAE":1391.2,"eph":36.000,"epv":32.321,"track":10.3788,"speed":0.091,"climb":-0.085,"mode":3}""");
        Assert.Equal(new Fix(Core.Units.Angle.FromDegrees(46.498293369), Core.Units.Angle.FromDegrees(7.567411672), 1391.2, 36.0, new DateTimeOffset(2005, 6, 8, 10, 34, 48, 283, TimeSpan.Zero)), read.Fix);
    }

    [Theory]
    [InlineData("""{"class":"TPV","mode":1}""", true, null, null)]
    [InlineData("""{"class":"TPV","mode":3,"lat":91.0,"lon":7.5}""", true, null, null)]
    [InlineData("""{"class":"TPV","mode":3,"status":8,"lat":46.0,"lon":7.5}""", true, null, null)]
    [InlineData("""{"class":"TPV","mode":"3","lat":46.0,"lon":7.5}""", true, null, null)]
    [InlineData("""{"class":"DEVICES","devices":[]}""", false, "has no receiver; plug one in, and see that gpsd knows of it", null)]
    [InlineData("""{"class":"DEVICES","devices":[{"class":"DEVICE","path":"/dev/ttyUSB0"}]}""", false, null, null)]
    [InlineData("""{"class":"VERSION","release":"3.22","proto_major":3,"proto_minor":14}""", false, null, null)]
    [InlineData("""{"class":"VERSION","proto_major":4}""", false, "speaks version 4 of the protocol, only 3 is known here", null)]
    [InlineData("""{"class":"ERROR","message":"Unrecognized request 'x'"}""", false, null, "gpsd says 'Unrecognized request 'x''")]
    [InlineData("""{"class":"SKY","satellites":[{"PRN":5}]}""", false, null, null)]
    [InlineData("""{"class":"TPV","mode":3""", false, null, "not one complete JSON object; is that gpsd? Its port is 2947")]
    [InlineData("""$GPGGA,1""", false, null, "not one complete JSON object; is that gpsd? Its port is 2947")]
    [InlineData("""[1]""", false, null, "no JSON object; is that gpsd? Its port is 2947")]
    [InlineData("""{"snr":7}""", false, null, "a JSON object without a class; is that gpsd? Its port is 2947")]
    public void Reports_of_gpsd_without_a_place_say_what_they_mean(string line, bool without, string? told, string? error)
    {
        FixReading read = Gpsd(line);
        Assert.Null(read.Fix);
        Assert.Equal((without, told, error), (read.IsWithoutFix, read.Told, read.Error?.Message));
    }

    // Every change of one character is seen by the checksum, except where it cannot be: a pair of changes that cancel.
    [Fact]
    public void Mutated_sentences_and_reports_are_refused_or_read_without_an_exception()
    {
        Xoshiro256 chance = new(26);
        string[] lines = [.. Places.Select(row => (string)row[0]), """{"class":"TPV","device":"/dev/pts/1","time":"2005-06-08T10:34:48.283Z","lat":46.498293369,"lon":7.567411672,"altHAE":1391.2,"eph":36.0,"mode":3}"""];
        NmeaReader nmea = new();
        GpsdReader gpsd = new();
        int refused = 0;
        for (int trial = 0; trial < 60_000; trial++)
        {
            byte[] line = Encoding.ASCII.GetBytes(lines[trial % lines.Length]);
            int changes = 1 + chance.NextBelow(3);
            for (int change = 0; change < changes; change++)
            {
                line[chance.NextBelow(line.Length)] = (byte)chance.NextBelow(256);
            }

            ReadOnlySpan<byte> cut = line.AsSpan(0, trial % 3 == 0 ? chance.NextBelow(line.Length) : line.Length);
            FixReading read = lines[trial % lines.Length][0] == '{' ? gpsd.Read(cut, "place") : nmea.Read(cut, "place");
            refused += read.Error is null ? 0 : 1;
            if (read.Fix is { } fix)
            {
                Assert.InRange(fix.Latitude.Degrees, -90, 90);
                Assert.InRange(fix.Longitude.Degrees, -180, 180);
            }
        }

        Assert.InRange(refused, 50_000, 60_000);
    }

    private static FixReading Gpsd(string line) => new GpsdReader().Read(Encoding.UTF8.GetBytes(line), "place");

    private static FixReading Read(NmeaReader reader, string body)
    {
        FixReading read = reader.Read(Encoding.ASCII.GetBytes(NmeaSentence.Of(body)), "place");
        Assert.Null(read.Error);
        return read;
    }

    private static DateTimeOffset? Gga(NmeaReader reader, string time) => Read(reader, $"GPGGA,{time},4748.0,N,01112.0,E,1,08,0.9,520.0,M,46.9,M,,").Fix!.Value.Utc;
}
