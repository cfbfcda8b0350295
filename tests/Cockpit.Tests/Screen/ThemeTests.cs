using Cockpit.Screen.Themes;

namespace Cockpit.Tests.Screen;

public sealed class ThemeTests
{
    [Fact]
    public void A_theme_gives_every_role_an_ink()
    {
        (Theme? theme, string? trouble) = ThemeFile.Read("""{ "name": "x", "roles": { "Plain": { "text": "#102030", "style": "bold" } } }""", "x.json");
        Assert.Null(trouble);
        Assert.Equal(Enum.GetValues<Role>().Length, theme!.Styles.Length);
        Assert.Equal(new Rgb(0x10, 0x20, 0x30), theme[Role.Plain].Text);
        Assert.True(theme[Role.Warning].Bold);
    }

    [Theory]
    [InlineData("{", "x.json:1:2: not valid JSON.")]
    [InlineData("{\n  \"name\": \"x\",\n  \"roles\": oops }", "x.json:3:12: not valid JSON.")]
    [InlineData("[]", "x.json: a theme is a JSON object.")]
    [InlineData("{}", "x.json: \"name\" is missing.")]
    [InlineData("""{ "name": 3 }""", "x.json: \"name\" must be text.")]
    [InlineData("""{ "name": "x" }""", "x.json: \"roles\" is missing.")]
    [InlineData("""{ "name": "x", "roles": {} }""", "x.json: the role \"Plain\" is missing.")]
    [InlineData("""{ "name": "x", "roles": { "Plain": {}, "Plane": {} } }""", "x.json: there is no role \"Plane\".")]
    [InlineData("""{ "name": "x", "roles": { "Plain": { "text": "red" } } }""", "x.json: \"red\" is no colour; write #rrggbb or terminal.")]
    [InlineData("""{ "name": "x", "roles": { "Plain": { "style": "blink" } } }""", "x.json: \"blink\" is no style; there are bold, reverse, underline, faint.")]
    [InlineData("""{ "name": "x", "roles": { "Plain": { "text16": "pink" } } }""", "x.json: \"pink\" is none of the sixteen colours, such as red, bright-red, dark-grey.")]
    public void A_broken_theme_gets_one_sentence(string text, string sentence)
    {
        (Theme? theme, string? trouble) = ThemeFile.Read(text, "x.json");
        Assert.Null(theme);
        Assert.Equal(sentence, trouble);
    }

    [Fact]
    public void The_themes_beside_the_program_are_the_four_and_load_without_trouble()
    {
        ThemeCatalog shelf = ThemeCatalog.Load(Path.Combine(AppContext.BaseDirectory, "themes"));
        Assert.Null(shelf.Trouble);
        Assert.Equal(["dusk", "night", "day", "mono"], shelf.Themes.Select(theme => theme.Name), StringComparer.Ordinal);
    }

    [Fact]
    public void Without_the_folder_the_built_in_themes_stand_in_and_it_is_said()
    {
        ThemeCatalog shelf = ThemeCatalog.Load(Path.Combine(AppContext.BaseDirectory, "no-such-folder"));
        Assert.Equal("Themes folder not readable, built-in themes are used.", shelf.Trouble);
        Assert.Equal(4, shelf.Themes.Length);
    }

    [Fact]
    public void Mono_has_no_colour_at_all() =>
        Assert.All(Named("mono").Styles, style => Assert.True(style is { Text: null, Ground: null, Text16: null, Ground16: null }));

    // WCAG 2.2, 1.4.3 and its definitions of contrast ratio and relative luminance: 4.5 for text, 3 for large letters.
    [Theory]
    [InlineData("dusk", 3.0)]
    [InlineData("day", 4.5)]
    public void Text_stands_out_from_its_ground(string name, double least)
    {
        Role[] plots = [Role.Grid, Role.TrackPast];
        Assert.All(Enum.GetValues<Role>().Except(plots), role => Assert.True(Contrast(Named(name)[role]) >= least, $"{name} {role}: {Contrast(Named(name)[role]):0.0}"));
    }

    // Night is dim on purpose; what must be read still needs 3, names and rules may be fainter.
    [Fact]
    public void Night_stays_readable_and_holds_no_blue_and_little_green()
    {
        Role[] quiet = [Role.Dim, Role.Stale, Role.Grid, Role.TrackPast, Role.Done];
        Theme night = Named("night");
        Assert.All(Enum.GetValues<Role>().Except(quiet), role => Assert.True(Contrast(night[role]) >= 3.0, $"{role}: {Contrast(night[role]):0.0}"));
        Assert.All(night.Styles, style => Assert.True(style.Text!.Value.Red >= style.Text.Value.Green && style.Text.Value.Green >= style.Text.Value.Blue));
        Assert.All(night.Styles, style => Assert.InRange(Luminance(style.Text!.Value), 0.0, 0.4));
    }

    // About 8 % of men confuse red and green; Machado, Oliveira, Fernandes, IEEE TVCG 15 (2009), table 1, severity 1.0 (from memory).
    [Theory]
    [InlineData("dusk")]
    [InlineData("day")]
    public void The_bands_differ_for_red_and_green_blind_eyes_too(string name)
    {
        double[][] deuteranope = [[0.367, 0.861, -0.228], [0.280, 0.673, 0.047], [-0.012, 0.043, 0.969]];
        Role[] bands = [Role.Hold, Role.Move, Role.Search];
        foreach (Role one in bands)
        {
            foreach (Role other in bands.Where(band => band > one))
            {
                double[] a = Seen(Named(name)[one].Ground!.Value, deuteranope);
                double[] b = Seen(Named(name)[other].Ground!.Value, deuteranope);
                Assert.True(Math.Sqrt(a.Zip(b, (x, y) => (x - y) * (x - y)).Sum()) > 0.1, $"{one} and {other}");
            }
        }
    }

    private static Theme Named(string name) => ThemeCatalog.Load(Path.Combine(AppContext.BaseDirectory, "themes")).Find(name)!;

    private static double Contrast(RoleStyle style)
    {
        double a = Luminance(style.Text!.Value);
        double b = Luminance(style.Ground!.Value);
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance(Rgb c) => (0.2126 * Linear(c.Red)) + (0.7152 * Linear(c.Green)) + (0.0722 * Linear(c.Blue));

    private static double Linear(byte value)
    {
        double v = value / 255.0;
        return v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
    }

    private static double[] Seen(Rgb c, double[][] eye) => [.. eye.Select(row => (row[0] * Linear(c.Red)) + (row[1] * Linear(c.Green)) + (row[2] * Linear(c.Blue)))];
}
