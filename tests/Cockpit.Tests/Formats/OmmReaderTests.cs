using System.Text.Json;
using Cockpit.Checks;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;
using Xunit.Abstractions;

namespace Cockpit.Tests.Formats;

public sealed class OmmReaderTests(ITestOutputHelper output)
{
    private static string Text(string file) => File.ReadAllText(ReferenceFiles.PathOf("09_omm_tle/" + file));

    private static string Form(string form) => form == "table" ? OrbitTables.ToTable(Text("omm.json")) : Text(form);

    private static ElementFile Read(string text) => ElementSets.Read("sky", new StringReader(text));

    // CCSDS 502.0-B-3; one invented object in every form, states from a general-purpose library.
    [Theory]
    [InlineData("case.tle")]
    [InlineData("omm.kvn")]
    [InlineData("omm.xml")]
    [InlineData("omm.json")]
    [InlineData("table")]
    public void Every_form_gives_the_states_of_its_TLE(string form)
    {
        var (elements, states) = Assert.Single(SyntheticStates.Read(Form(form), Text("states.csv")));
        StateComparison result = StateComparison.Of(form, new Sgp4(elements), states);
        output.WriteLine(result.ToString());
        Assert.True(result is { States: 6, LargestKm: <= 1e-6, LargestKmPerSecond: <= 1e-9, WrongCodes.Count: 0 }, result.ToString());
    }

    [Theory]
    [InlineData(70_000)]
    [InlineData(1_000_000)]
    public void A_long_comment_before_a_message_is_passed_over(int length)
    {
        string comment = $"<!-- {new string('x', length)} > -- > -->";
        ElementFile file = Read(Text("omm.xml").Replace("<omm", comment + "<omm", StringComparison.Ordinal));
        Assert.Empty(file.Errors);
        Assert.Single(file.Sets);
    }

    [Fact]
    public void A_comment_that_is_not_closed_is_told() =>
        Assert.Contains("is not closed", Assert.Single(Read("<ndm><!-- " + new string('x', 100_000) + "</ndm>").Errors).Message, StringComparison.Ordinal);

    [Fact]
    public void A_name_loses_what_a_terminal_would_obey()
    {
        string json = ElementSamples.Json.Replace("PETREL 2", "P\\u001b]0;x\\u0007\\u202e\u885B", StringComparison.Ordinal);
        Assert.Equal("P\uFFFD]0;x\uFFFD\uFFFD\u885B", Read(json).Sets[0].Name);
    }

    [Theory]
    [InlineData("omm.kvn")]
    [InlineData("omm.xml")]
    [InlineData("omm.json")]
    [InlineData("table")]
    public void Every_form_gives_the_very_elements_of_its_TLE(string form)
    {
        ElementSet expected = Assert.Single(Read(Text("case.tle")).Sets);
        Assert.Equal(expected, Assert.Single(Read(Form(form)).Sets));
    }

    [Fact]
    public void Forms_may_be_mixed_in_one_file()
    {
        ElementFile file = Read(string.Join('\n', Text("case.tle"), Text("omm.kvn"), Text("omm.json"), Text("omm.kvn"), Text("omm.xml"), Form("table"), Text("case.tle")));
        Assert.Empty(file.Errors);
        Assert.Equal(7, file.Sets.Length);
        Assert.Single(file.Sets.Distinct());
    }

    [Theory]
    [InlineData("bad01", 2, 69, "the checksum of line 1 is '1', expected 8; a character was changed, get the element set again")]
    [InlineData("bad02", 3, 3, "line 2 carries catalogue number 99199, line 1 carries 99101; two element sets were mixed")]
    [InlineData("bad03", 2, 61, "line 1 is short: 60 characters, expected 69; get the element set again")]
    [InlineData("bad04", 2, 1, "line 2 stands before line 1; put them in the order 1, 2")]
    [InlineData("bad05", 3, 9, "inclination is 198.597, expected 0 to 180 degrees; get the element set again")]
    [InlineData("bad06", 2, 21, "epoch day of the year is 400, expected 1 to 365")]
    [InlineData("bad07", 1, 2, "MEAN_MOTION is missing; get the element set again")]
    [InlineData("bad08", 5, 13, "REF_FRAME is 'EME2000', expected TEME; TIME_SYSTEM is 'TAI', expected UTC; MEAN_ELEMENT_THEORY is 'DSST', expected SGP4: these elements cannot be used with SGP4")]
    public void Every_malformed_input_is_refused_for_the_stated_reason(string id, int line, int column, string message)
    {
        using var json = JsonDocument.Parse(Text("malformed.json"));
        string text = json.RootElement.EnumerateArray().Single(e => e.GetProperty("id").GetString() == id).GetProperty("text").GetString()!;
        ElementFile file = Read(text);
        Assert.Empty(file.Sets);
        Assert.Equal(new ParseError("sky", line, column, message), Assert.Single(file.Errors));
    }

    [Theory]
    [InlineData("omm.kvn", "14.27965384 [rev/day]", "14.2x", 14, 25, "MEAN_MOTION is '14.2x', expected a number")]
    [InlineData("omm.kvn", "[rev/day]", "[deg/s]", 14, 25, "MEAN_MOTION has the unit 'deg/s', expected rev/day")]
    [InlineData("omm.kvn", "INCLINATION           =", "INCLINATION            ", 16, 1, "'INCLINATION             98.5970 [deg]' has no '=' behind its keyword")]
    [InlineData("omm.kvn", "BSTAR ", "ECCENTRICITY ", 26, 32, "ECCENTRICITY stands twice in one message; leave one")]
    [InlineData("omm.kvn", "CCSDS_OMM_VERS        = 3.0", "CCSDS_OMM_VERS = 1.0", 1, 18, "CCSDS_OMM_VERS is '1.0', expected 2.0: these elements cannot be used with SGP4")]
    [InlineData("omm.kvn", "CCSDS_OMM_VERS", "CCSDS_OPM_VERS", 1, 1, "'CCSDS_OPM_VERS' opens another kind of message; expected an OMM (CCSDS_OMM_VERS)")]
    [InlineData("omm.xml", "<INCLINATION>98.5970", "<INCLINATION>298.5970", 6, 151, "INCLINATION: inclination is 298.597, expected 0 to 180 degrees")]
    [InlineData("omm.xml", "</INCLINATION>", "</INCLINE>", 6, 160, "no valid XML in this <omm>; get the element set again")]
    [InlineData("omm.xml", "<ndm>", "<!DOCTYPE ndm [<!ENTITY a \"aaaa\">]><ndm>", 2, 1, "a document type (DOCTYPE) is not accepted; remove it")]
    [InlineData("omm.xml", "MARLSNIPE 1", "&a;", 5, 40, "no valid XML in this <omm>; get the element set again")]
    [InlineData("omm.xml", "</body>", "<body>", 7, 347, "no valid XML in this <omm>; get the element set again")]
    [InlineData("omm.xml", "</omm>", "", 3, 1, "XML that begins here is not closed: the input was cut off, get it again")]
    [InlineData("omm.xml", "<ndm>", "<html>", 2, 1, "<html> found; expected an OMM in XML (<omm>, or several in <ndm>)")]
    [InlineData("omm.json", "14.27965384", "\"fast\"", 13, 18, "MEAN_MOTION is 'fast', expected a number")]
    [InlineData("omm.json", "14.27965384", "14,27965384", 13, 21, "no valid JSON, found '27965384,\\u000a  \"ECCENTRICITY\": 0.0012686,\\u000a ...'; get the element set again")]
    [InlineData("omm.json", "2026-11-24T", "2026-13-24T", 12, 12, "EPOCH is '2026-13-24T05:58:36.361344', expected a UTC like 2026-11-24T05:58:36.361344 or 2026-328T05:58:36.361344")]
    [InlineData("omm.json", "}\n]", "", 27, 2, "the object that begins in line 2 is not closed by '}': the input was cut off, get it again")]
    [InlineData("omm.json", "]", "", 28, 1, "the list is not closed by ']': the input was cut off, get it again")]
    [InlineData("table", "14.27965384", "14.27965384,1", 2, 1, "the row has 25 cells, the headings 24; get the table again")]
    [InlineData("table", "MEAN_MOTION,", "SPEED,", 1, 1, "the table has no column MEAN_MOTION; get it again")]
    [InlineData("table", "14.27965384", "", 2, 1, "MEAN_MOTION is missing; get the element set again")]
    public void A_mistake_is_told_with_line_column_and_sentence(string form, string good, string bad, int line, int column, string message)
    {
        string text = Form(form);
        int at = text.IndexOf(good, StringComparison.Ordinal);
        ElementFile file = Read(text.Remove(at, good.Length).Insert(at, bad));
        output.WriteLine(string.Join('\n', file.Errors));
        Assert.Equal(new ParseError("sky", line, column, message), file.Errors[0]);
    }

    [Theory]
    [InlineData("omm.kvn")]
    [InlineData("omm.xml")]
    [InlineData("omm.json")]
    public void Good_sets_beside_bad_ones_are_used(string form)
    {
        string good = Text(form);
        string bad = good.Replace("98.597", "1980.597", StringComparison.Ordinal);
        ElementFile file = Read(good + "\n" + bad + "\n" + good);
        Assert.Equal(2, file.Sets.Length);
        Assert.Single(file.Errors);
    }

    [Fact]
    public void Values_may_be_strings_and_what_catalogues_leave_out_is_not_missed()
    {
        const string text = """
            [{"OBJECT_NAME":"PETREL 2","EPOCH":"2026-328T12:00:00Z","MEAN_MOTION":"14.2","ECCENTRICITY":".0012686","INCLINATION":"98.6",
            "RA_OF_ASC_NODE":10,"ARG_OF_PERICENTER":20,"MEAN_ANOMALY":30,"NORAD_CAT_ID":"400123","BSTAR":"1E-4","DECAY_DATE":null},{}]
            """;
        ElementFile file = Read(text);
        ElementSet set = Assert.Single(file.Sets);
        Assert.Equal(0.0012686, set.Eccentricity);
        Assert.Equal(400123, set.CatalogNumber);
        Assert.Equal(new DateTimeOffset(2026, 11, 24, 12, 0, 0, TimeSpan.Zero), set.EpochUtc);
        Assert.StartsWith("EPOCH, MEAN_MOTION, ", Assert.Single(file.Errors).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_whole_catalogue_on_one_line_is_read()
    {
        string one = Text("omm.json").Trim('[', ']', '\n', ' ').Replace("\n", "", StringComparison.Ordinal);
        ElementFile file = Read("[" + string.Join(',', Enumerable.Repeat(one, 500)) + "]");
        Assert.Empty(file.Errors);
        Assert.Equal(500, file.Sets.Length);
    }

    [Fact]
    public void Nested_objects_without_end_are_refused_and_do_not_fill_the_memory()
    {
        ElementFile file = Read("[" + string.Concat(Enumerable.Repeat("{\"a\":", 200_000)));
        Assert.Equal("the object that begins in line 1 is not closed by '}': the input was cut off, get it again", Assert.Single(file.Errors).Message);
    }
}
