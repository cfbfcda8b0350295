using Cockpit.Commands;
using Cockpit.Core.Aim;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Devices.Journal;
using Cockpit.Planning;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Settings;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Rehearsal;

/// <summary>The words of a rehearsal.</summary>
public sealed class RehearseCommandTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-rehearse-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("--skill: keys need the screen; leave --plain out, or choose novice or practised", "--plain", "--skill", "keys")]
    [InlineData("--station: elements need a place to stand: give a station like 47.8,11.2, or neither for the invented pass of the demo", "--plain", "--elements", "x.tle")]
    [InlineData("--wind: 'gale' is not a number from 0 to 10; see cockpit rehearse --help", "--wind", "gale")]
    [InlineData("--pass: 'any' is not known; choose best or low or overhead or next; see cockpit rehearse --help", "--pass", "any")]
    [InlineData("--sun: 'hide' is not known; choose fly or skip; see cockpit rehearse --help", "--sun", "hide")]
    public async Task Wrong_words_get_one_sentence(string sentence, params string[] words)
    {
        CommandRun run = await CommandRun.Of(["rehearse", .. words]);
        Assert.Equal((2, "", sentence), (run.ExitCode, run.Output, run.Error.TrimEnd()));
    }

    [Fact]
    public async Task Nothing_that_is_worth_flying_is_said_with_what_to_do()
    {
        CommandRun run = await CommandRun.Of("rehearse", "--plain", "--station", "47.8,11.2", "--above", "89.5");
        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith("rehearse: no pass that is worth anything comes within 36 hours of 2026-11-25T10:36:55Z; choose", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_settings_say_where_and_whether_to_fly_by_the_sun_but_not_who_steers()
    {
        string settings = Path.Combine(_folder.FullName, "settings.toml");
        await File.WriteAllTextAsync(settings, "[[places]]\nname = \"a\"\nlatitude_deg = 47.8\nlongitude_deg = 11.2\n[[dishes]]\nname = \"b\"\ndiameter_m = 0.9\nsun = \"fly\"\n[hand]\nskill = \"novice\"\n");
        string sessions = Path.Combine(_folder.FullName, "sessions");
        using StringWriter output = new();
        using StringWriter error = new();
        int code = await CommandRoot.RunAsync(["rehearse", "--plain", "--stop-after", "1s", "--sound", "off", "--seed", "5", "--sensor", "--sessions", sessions], output, error, settings);
        Assert.True(code == 0, error.ToString());
        Assert.Contains("--seed 5 brings the same weather again", error.ToString(), StringComparison.Ordinal);
        Assert.True(Recording.ReadAll(Directory.GetDirectories(sessions).Single()).Try(out Recording? recording, out ParseError? trouble), trouble?.ToString());
        SessionSettings flown = ((SessionOpened)recording.Envelopes[0].Event).Settings;
        Assert.Equal((SessionKind.Rehearsal, SunRule.Fly, 0.9, 5UL, false), (flown.Kind, flown.Sun, flown.DishDiameterMetres, flown.Seed!.Value, flown.KeysSteer));
        Assert.Equal(47.8, flown.Station.Latitude.Degrees, 1e-9);
        Assert.Equal(CockpitSettings.PractisedLead, flown.CueLead);
        Assert.Contains(recording.Envelopes, envelope => envelope.Event is SignalMeasured);
        Assert.Contains(recording.Envelopes, envelope => envelope.Event is PointingMeasured { Sample: { Azimuth: not null, Elevation: not null } });
    }

    [Fact]
    public void Best_lowest_and_highest_are_told_apart_and_none_has_begun()
    {
        DateTimeOffset from = Demo.Of(1, "").StartUtc;
        Site station = Demo.Of(1, "").Settings.Station;
        PassQuestion question = new(station, from, from.AddHours(36), Angle.FromDegrees(5), null, 0.0, Refraction: false);
        Assert.True(PassPlanner.Find([new Sgp4(Demo.Elements)], question, new VerdictSettings { Site = station }, []).Try(out PassesAhead? ahead, out ParseError? error), error?.ToString());
        PlannedPass best = RehearsedPass.Of(ahead, PassWish.Best, from)!;
        double low = RehearsedPass.Of(ahead, PassWish.Low, from)!.Pass.Tca.Look.Elevation.Degrees;
        double high = RehearsedPass.Of(ahead, PassWish.Overhead, from)!.Pass.Tca.Look.Elevation.Degrees;
        Assert.True(low < 40.0 && high > 60.0, $"{low:0} {high:0}");
        Assert.Equal(ahead.Worth.First(one => one.Pass.Aos.Utc > from), best);
        Assert.Equal(ahead.Worth.Where(one => one.Pass.Aos.Utc > from).Min(one => one.Pass.Aos.Utc), RehearsedPass.Of(ahead, PassWish.Next, from)!.Pass.Aos.Utc);
        Assert.Null(RehearsedPass.Of(ahead, PassWish.Best, from.AddDays(3)));
    }
}
