using System.Buffers;
using System.Collections;
using System.Collections.Immutable;
using System.Reflection;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Journal;

public sealed class EventLineTests
{
    public static TheoryData<string> TypeNames => [.. EventTypes.All.Select(entry => entry.Name)];

    [Fact]
    public void Every_event_type_has_one_name_and_a_sample()
    {
        string[] types = Names(typeof(SessionEvent).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(SessionEvent)) && !type.IsAbstract));
        Assert.Equal(types, Names(EventTypes.All.Select(entry => entry.Type)));
        Assert.Equal(types, Names(EventSamples.All.Select(sample => sample.GetType())));
        Assert.Equal(EventTypes.All.Length, EventTypes.All.Select(entry => entry.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.All(EventTypes.All, entry => Assert.Matches("^[a-z]+\\.[a-z-]+/[1-9]$", entry.Name));
    }

    [Fact]
    public void The_page_about_the_format_holds_every_event_and_every_setting()
    {
        string page = File.ReadAllText(Path.Combine(Repository.Root, "sessions", "README.md"));
        Assert.All(EventTypes.All, entry => Assert.Contains($"| `{entry.Name}` |", page, StringComparison.Ordinal));
        string sample = File.ReadAllText(Path.Combine(Repository.Root, "tests", "data", "events", "session.opened.2.json"));
        using JsonDocument line = JsonDocument.Parse(sample);
        string[] settings = [.. line.RootElement.GetProperty("data").GetProperty("settings").EnumerateObject().Select(field => field.Name)];
        Assert.True(settings.Length > 10);
        Assert.All(settings, name => Assert.Contains($"`{name}`", page, StringComparison.Ordinal));
    }

    // A checked-in line is what older journals hold: it must be read the same for ever. Fields may be added, never renamed or changed.
    [Theory]
    [MemberData(nameof(TypeNames))]
    public void The_sample_line_is_read_and_written_as_checked_in(string name)
    {
        SessionEvent sample = EventSamples.All.Single(sample => sample.GetType() == EventTypes.TypeOf(name));
        Envelope envelope = EventSamples.Enveloped(sample);
        string path = Path.Combine(AppContext.BaseDirectory, "data", "events", name.Replace('/', '.') + ".json");
        Assert.True(File.Exists(path), $"{path} is missing; it should hold: {LineOf(envelope)}");
        string stored = File.ReadAllText(path);
        AssertSame(envelope, ReadBack(stored));
        AssertHolds(JsonNode.Parse(stored)!["data"]!, JsonNode.Parse(LineOf(envelope))!["data"]!);
    }

    // Written before a sample told its age.
    [Fact]
    public void A_pointing_without_an_age_is_read_as_one_whose_age_is_not_told() =>
        Assert.Null(Assert.IsType<PointingMeasured>(ReadBack(
            """{"seq":23,"elapsed_s":2.3000023,"utc":"2026-11-25T10:15:02.3000023Z","source":"program","type":"pointing.measured/1","data":{"feed":"pointing","sample":{"azimuth_rad":3.7437312455278366,"elevation_rad":0.5585053606381855,"roll_rad":null,"north":"Magnetic"}},"crc":"ed48c6e0"}""").Event).Age);

    // A session of the first version: elements as the lines of a TLE, feeds by their names alone.
    [Fact]
    public void A_session_opened_of_the_first_version_is_read_as_it_was_meant()
    {
        const string lines = "PETREL 2\n1 99102U 26910A   26329.13888889  .00000061  00000-0  41000-4 0  9990\n2 99102  98.7420  41.0000 0010213  84.3100 275.9300 14.19552000 45216";
        string stored = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "events", "session.opened.1.json"));
        SessionSettings settings = Assert.IsType<SessionOpened>(ReadBack(stored).Event).Settings;
        Assert.Null(settings.Elements);
        Assert.Equal(FeedSettings.Signal, Assert.Single(settings.Feeds));
        Assert.Equal((0.9, ulong.MaxValue), (settings.DishDiameterMetres, settings.Seed));

        string data = JsonNode.Parse(stored)!["data"]!.ToJsonString().Replace("PETREL 2\\n1 line\\n2 line", lines.Replace("\n", "\\n", StringComparison.Ordinal), StringComparison.Ordinal);
        ElementSet expected = ElementSets.Read("test", new StringReader(lines)).Sets[0];
        AssertSame(expected, Assert.IsType<SessionOpened>(ReadBack(LineWith("session.opened/1", data)).Event).Settings.Elements);
    }

    [Theory]
    [MemberData(nameof(TypeNames))]
    public void Every_field_comes_back_bit_for_bit_whatever_its_value(string name)
    {
        Xoshiro256 chance = new(seed: 7);
        for (int round = 0; round < 100; round++)
        {
            SessionEvent random = (SessionEvent)RandomValue.Of(EventTypes.TypeOf(name)!, chance)!;
            Envelope envelope = new(chance.NextBelow(1 << 30) + 1, RandomValue.Span(chance), RandomValue.Instant(chance), RandomValue.Text(chance), random);
            AssertSame(envelope, ReadBack(LineOf(envelope)));
        }
    }

    [Fact]
    public void A_field_that_an_older_journal_lacks_keeps_the_default_of_its_record()
    {
        const string data = """{"settings":{"program_version":"0.1.0","kind":"live","station_name":"Oakridge","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"PETREL 2","elements":"","later_field":{"x":[1]}}}""";
        SessionOpened opened = Assert.IsType<SessionOpened>(ReadBack(LineWith("session.opened/1", data)).Event);
        SessionSettings defaults = new()
        {
            ProgramVersion = "0.1.0",
            Kind = SessionKind.Live,
            StationName = "Oakridge",
            Station = new(Angle.FromRadians(0.5), Angle.FromRadians(0.25), 0),
            SatelliteName = "PETREL 2",
        };
        AssertSame(new SessionOpened(defaults), opened);
        Assert.True(defaults.DishDiameterMetres > 0);
    }

    [Theory]
    [InlineData("live", SessionKind.Live)]
    [InlineData("demo", SessionKind.Demo)]
    [InlineData("simulated", SessionKind.Simulated)]
    [InlineData("dreamt", SessionKind.Other)]
    public void The_kind_of_a_session_is_one_small_word(string word, SessionKind kind)
    {
        string data = $$$"""{"settings":{"program_version":"","kind":"{{{word}}}","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"","elements":""}}""";
        Envelope read = ReadBack(LineWith("session.opened/1", data));
        Assert.Equal(kind, Assert.IsType<SessionOpened>(read.Event).Settings.Kind);
        Assert.Contains(kind == SessionKind.Other ? "\"kind\":\"other\"" : $"\"kind\":\"{word}\"", LineOf(read), StringComparison.Ordinal);
    }

    // The first journals hold the names of the feeds alone; a role that a newer program wrote costs its meaning, not the session.
    [Fact]
    public void The_role_of_a_feed_is_read_from_its_name_where_that_stands_alone()
    {
        const string data = """{"settings":{"program_version":"0.1.0","kind":"live","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"","elements":"","feeds":["signal","signal 2","dish",{"name":"level","role":"signal"},{"role":"hovering","later":[1],"name":"signal 3"}]}}""";
        SessionOpened opened = Assert.IsType<SessionOpened>(ReadBack(LineWith("session.opened/1", data)).Event);
        FeedSettings[] expected =
        [
            new("signal", FeedRole.Signal), new("signal 2", FeedRole.Signal), new("dish", FeedRole.Other), new("level", FeedRole.Signal), new("signal 3", FeedRole.Other),
        ];
        Assert.Equal(expected, opened.Settings.Feeds);
    }

    // The words of the JSON library name types and members of the code; a person needs what stands where.
    [Theory]
    [InlineData("feed.lost/1", """{"feed":"signal"}""", "column 100: data has no reason")]
    [InlineData("feed.lost/1", """{"feed":"signal","reason":null}""", "column 126: reason cannot be 'null'")]
    [InlineData("feed.lost/1", """{"feed":"signal","reason":7}""", "column 126: reason cannot be '7'")]
    [InlineData("operator.pressed/1", """{"key":"Sideways"}""", "column 114: key cannot be 'Sideways'")]
    [InlineData("truth.recorded/1", """{"azimuth_rad":"1","elevation_rad":1,"margin_db":1}""", "column 120: azimuth_rad: a number was expected")]
    [InlineData("clock.corrected/1", """{"change_s":1e40,"reason":"x"}""", "column 118: change_s: seconds were expected")]
    [InlineData("clock.ticked/1", "7", "column 103: data cannot be '7'")]
    [InlineData("signal.measured/1", """{"feed":"signal","sample":{"snr_db":[1]}}""", "column 142: sample.snr_db cannot be a list")]
    [InlineData("session.opened/2", """{"settings":{"program_version":"","kind":"live","station_name":"","satellite_name":""}}""", "column 117: settings: station is missing")]
    [InlineData("session.opened/2", """{"settings":{"program_version":"","kind":"live","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":true,"height_metres":0},"satellite_name":""}}""", "column 217: settings.station.longitude_rad: a number was expected")]
    [InlineData("session.opened/2", """{"settings":{"program_version":"","kind":"live","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"","elements":{"name":"X"}}}""", "column 272: settings.elements: the element set has no name, or no epoch in the years 1900 to 2300")]
    [InlineData("session.opened/2", """{"settings":{"program_version":"","kind":"live","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"","elements":{"name":"X","catalog_number":"1"}}}""", "column 272: settings.elements: 'catalog_number' is not a value of that kind")]
    [InlineData("session.opened/2", """{"settings":{"program_version":"","kind":"live","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"","elements":{"name":"X","catalog_number":1,"epoch_day":2461004.5,"epoch_fraction":0.5,"mean_motion_rev_per_day":0}}}""", "column 272: settings.elements: mean motion is 0, expected 1E-08 to 100 rev/day")]
    [InlineData("session.opened/2", """{"settings":{"program_version":"","kind":"live","station_name":"","station":{"latitude_rad":0.5,"longitude_rad":0.25,"height_metres":0},"satellite_name":"","feeds":[{"role":"signal"}]}}""", "column 269: settings.feeds: a feed has no name")]
    public void Data_that_do_not_fit_their_type_are_damage_told_by_column_and_value(string type, string data, string what) =>
        Assert.Equal("it is not an event of a journal, " + what, JournalLine.Read(Encoding.UTF8.GetBytes(LineWith(type, data))).Damage);

    [Theory]
    [InlineData("\"seq\":1", "\"seq\":\"one\"", "column 8: 'seq' cannot be 'one'")]
    [InlineData("\"elapsed_s\":0", "\"elapsed_s\":1e40", "column 22: 'elapsed_s' cannot be '1e40'")]
    [InlineData("2026-11-25T10:15:00Z", "yesterday", "column 30: 'utc' cannot be 'yesterday'")]
    [InlineData("\"source\":\"program\"", "\"source\":{}", "column 62: 'source' cannot be an object")]
    [InlineData("\"elapsed_s\":0", "\"elapsed_s\";0", "column 21: here the line is no longer JSON")]
    public void Members_that_cannot_be_are_told_by_column_and_value(string good, string bad, string what)
    {
        string body = LineWith("clock.ticked/1", "{}")[..^18].Replace(good, bad, StringComparison.Ordinal);
        string line = $"{body},\"crc\":\"{Crc32.Of(Encoding.UTF8.GetBytes(body)):x8}\"}}";
        Assert.Equal("it is not an event of a journal, " + what, JournalLine.Read(Encoding.UTF8.GetBytes(line)).Damage);
    }

    // The check value of the standard CRC-32 (IEEE 802.3) as listed in catalogues of CRCs, for instance R. N. Williams (1993), section 15.
    [Fact]
    public void The_checksum_has_the_published_check_value() => Assert.Equal(0xCBF43926u, Crc32.Of("123456789"u8));

    private static string[] Names(IEnumerable<Type> types) => [.. types.Select(type => type.Name).Order(StringComparer.Ordinal)];

    private static string LineWith(string type, string data)
    {
        string body = $$"""{"seq":1,"elapsed_s":0,"utc":"2026-11-25T10:15:00Z","source":"program","type":"{{type}}","data":{{data}}""";
        return $"{body},\"crc\":\"{Crc32.Of(Encoding.UTF8.GetBytes(body)):x8}\"}}";
    }

    private static string LineOf(Envelope envelope)
    {
        ArrayBufferWriter<byte> line = new();
        JournalLine.Write(line, envelope);
        return Encoding.UTF8.GetString(line.WrittenSpan);
    }

    private static Envelope ReadBack(string line)
    {
        JournalRecord record = JournalLine.Read(Encoding.UTF8.GetBytes(line.TrimEnd('\n')));
        Assert.Null(record.Damage);
        return Assert.IsType<Envelope>(record.Envelope);
    }

    /// <summary>Every member of the older object is in the newer one, with the same text.</summary>
    private static void AssertHolds(JsonNode older, JsonNode newer)
    {
        if (older is not JsonObject members)
        {
            Assert.Equal(older.ToJsonString(), newer.ToJsonString());
            return;
        }

        foreach ((string member, JsonNode? value) in members)
        {
            Assert.True(newer.AsObject().ContainsKey(member), $"{member} is no longer written");
            if (value is not null)
            {
                AssertHolds(value, newer[member]!);
            }
        }
    }

    /// <summary>Equal in every field, and doubles in every bit; collections element by element.</summary>
    private static void AssertSame(object? expected, object? actual)
    {
        if (expected is null || actual is null || expected is string || expected.GetType().IsPrimitive || expected.GetType().IsEnum)
        {
            Assert.Equal(expected, actual);
            Assert.Equal(expected is double e ? BitConverter.DoubleToInt64Bits(e) : 0, actual is double a ? BitConverter.DoubleToInt64Bits(a) : 0);
        }
        else if (expected is TimeSpan or DateTimeOffset)
        {
            Assert.Equal(expected, actual);
        }
        else if (expected is IEnumerable list)
        {
            object?[] items = [.. list.Cast<object?>()];
            object?[] others = [.. ((IEnumerable)actual).Cast<object?>()];
            Assert.Equal(items.Length, others.Length);
            items.Zip(others).ToList().ForEach(pair => AssertSame(pair.First, pair.Second));
        }
        else
        {
            Assert.Equal(expected.GetType(), actual.GetType());
            foreach (PropertyInfo property in expected.GetType().GetProperties().Where(property => property.CanWrite))
            {
                AssertSame(property.GetValue(expected), property.GetValue(actual));
            }
        }
    }

    /// <summary>Values of any type that stands in an event; a type that is not here must be added with the event that needs it.</summary>
    private static class RandomValue
    {
        internal static object? Of(Type type, Xoshiro256 chance)
        {
            if (Nullable.GetUnderlyingType(type) is { } inner)
            {
                return chance.NextBelow(4) == 0 ? null : Of(inner, chance);
            }

            return type switch
            {
                _ when type == typeof(string) => Text(chance),
                _ when type == typeof(bool) => chance.NextBelow(2) == 0,
                _ when type == typeof(int) => (int)chance.NextBits(),
                _ when type == typeof(long) => (long)chance.NextBits(),
                _ when type == typeof(ulong) => chance.NextBits(),
                _ when type == typeof(double) => Number(chance),
                _ when type == typeof(Angle) => Angle.FromRadians(Number(chance)),
                _ when type == typeof(TimeSpan) => Span(chance),
                _ when type == typeof(DateTimeOffset) => Instant(chance),
                _ when type == typeof(ElementSet) => Elements(chance),
                _ when type.IsEnum => Enum.GetValues(type).GetValue(chance.NextBelow(Enum.GetValues(type).Length)),
                _ when type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>) => Many(type.GetGenericArguments()[0], chance),
                _ => Record(type, chance),
            };
        }

        /// <summary>Any numbers inside the limits of elements.</summary>
        private static ElementSet Elements(Xoshiro256 chance) => new()
        {
            Name = Text(chance),
            CatalogNumber = chance.NextBelow(1_000_000_000),
            Classification = "UCS"[chance.NextBelow(3)],
            InternationalDesignator = Text(chance),
            Epoch = new JulianDate(2451544.5 + chance.NextBelow(20_000), chance.NextUnit()),
            MeanMotionRevPerDay = 1e-8 + (chance.NextUnit() * 99),
            MeanMotionDotRevPerDay2 = Number(chance),
            MeanMotionDdotRevPerDay3 = Number(chance),
            BStar = (chance.NextUnit() * 20) - 10,
            Inclination = Angle.FromRadians(chance.NextUnit() * Math.PI),
            RightAscension = Angle.FromRadians(chance.NextUnit() * Math.Tau),
            Eccentricity = chance.NextUnit(),
            ArgumentOfPerigee = Angle.FromRadians(chance.NextUnit() * Math.Tau),
            MeanAnomaly = Angle.FromRadians(chance.NextUnit() * Math.Tau),
            EphemerisType = chance.NextBelow(4),
            ElementSetNumber = chance.NextBelow(10_000),
            RevolutionNumber = chance.NextBelow(1 << 30),
        };

        internal static string Text(Xoshiro256 chance)
        {
            const string letters = "aZ09 \t\n\r\"\\/'<>&+{}[],:\u0001é≤🛰";
            return string.Concat(Enumerable.Range(0, chance.NextBelow(12)).Select(_ => letters.EnumerateRunes().ElementAt(chance.NextBelow(25)).ToString()));
        }

        internal static TimeSpan Span(Xoshiro256 chance) => TimeSpan.FromTicks((long)(chance.NextBits() >> chance.NextBelow(64)));

        internal static DateTimeOffset Instant(Xoshiro256 chance) => new((long)(chance.NextUnit() * DateTime.MaxValue.Ticks), TimeSpan.Zero);

        private static double Number(Xoshiro256 chance)
        {
            double bits = BitConverter.UInt64BitsToDouble(chance.NextBits());
            return chance.NextBelow(8) switch
            {
                0 => -0.0,
                1 => double.Epsilon,
                2 => double.MaxValue,
                3 => 0.1 + 0.2,
                _ => double.IsFinite(bits) ? bits : 1.0 / 3.0,
            };
        }

        private static object Many(Type type, Xoshiro256 chance)
        {
            Array items = Array.CreateInstance(type, chance.NextBelow(4));
            for (int i = 0; i < items.Length; i++)
            {
                items.SetValue(Of(type, chance), i);
            }

            MethodInfo create = typeof(ImmutableArray).GetMethods().Single(method => string.Equals(method.Name, nameof(ImmutableArray.Create), StringComparison.Ordinal)
                && method.GetParameters() is [{ ParameterType.IsArray: true }]);
            return create.MakeGenericMethod(type).Invoke(null, [items])!;
        }

        private static object Record(Type type, Xoshiro256 chance)
        {
            Assert.True(type.Namespace?.StartsWith("Cockpit", StringComparison.Ordinal), $"no random value for {type}");
            ConstructorInfo make = type.GetConstructors().OrderByDescending(constructor => constructor.GetParameters().Length).First();
            object made = make.Invoke([.. make.GetParameters().Select(parameter => Of(parameter.ParameterType, chance))]);
            foreach (PropertyInfo property in type.GetProperties().Where(property => property.CanWrite && make.GetParameters().Length == 0))
            {
                property.SetValue(made, Of(property.PropertyType, chance));
            }

            return made;
        }
    }
}
