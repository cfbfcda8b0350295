using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>The time before the pass, by somebody who sees only the screen and has only the keys.</summary>
public sealed class BeforeThePassTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-before-");

    public void Dispose() => _folder.Delete(recursive: true);

    [TerminalFact]
    public async Task Live_alone_chooses_the_next_pass_worth_it_checks_everything_and_lets_another_be_chosen()
    {
        string settings = Path.Combine(_folder.FullName, "settings.toml");
        await File.WriteAllTextAsync(settings, $"""
            version = 1
            places = [{"{"} name = "Meadow", latitude_deg = 47.8, longitude_deg = 11.2, altitude_m = 520, skyline = "0:5,90:12,180:6,270:10" {"}"}]
            dishes = [{"{"} name = "mesh", diameter_m = 0.8 {"}"}]
            [elements]
            file = "{CockpitProcess.Elements}"
            [sessions]
            folder = "kept"
            [[favourites]]
            satellite = "BRACKWING 5"
            [[favourites]]
            satellite = "FENHERON 3"
            [[favourites.downlinks]]
            frequency_mhz = 1701.3
            service = "split-phase-665k"
            """);

        await using Operator person = Operator.At(100, 30, "live", "--settings", settings, "--at", "2026-11-26T17:20:00Z", "--speed", "2");
        await person.SeesAsync("CHECK");
        await person.SeesAsync("the next worth it");
        await person.SeesAsync("first sight");
        await person.SeesAsync("GB free");
        await person.PressesAsync("t");
        await person.SeesAsync("Space: so it came");
        await person.PressesAsync("x");
        await person.SeesAsync("the sound is not as it has to be");
        await person.PressesAsync("2");
        await person.SeesAsync("your choice");
        await person.SeesAsync("► 2");
        await person.PressesAsync("v");
        await person.SeesAsync("SKY");
        Assert.Equal(0, await person.LeavesAsync());
        Assert.Equal(2, Directory.GetDirectories(Path.Combine(_folder.FullName, "kept")).Length);
    }

    // The way of somebody who has nothing yet: five questions, a skyline by keys, the evening's list, the pass.
    [TerminalFact]
    public async Task From_an_empty_home_five_answers_and_a_skyline_lead_to_the_first_pass()
    {
        string settings = Path.Combine(_folder.FullName, "home", "settings.toml");
        await using (Operator person = Operator.At(100, 30, "settings", "new", "--settings", settings))
        {
            await person.SeesAsync("1. Where do you stand?");
            await TypesAsync(person, "north of here");
            await person.SeesAsync("is not");
            await TypesAsync(person, "47.8,11.2,520");
            await person.SeesAsync("2. Diameter");
            await TypesAsync(person, "0.8");
            await person.SeesAsync("3. Element sets");
            await TypesAsync(person, CockpitProcess.Elements);
            await person.SeesAsync("4. The satellite");
            await TypesAsync(person, "BRACKWING 5");
            await person.SeesAsync("5. Where the level");
            await TypesAsync(person, "tcp://127.0.0.1:17640");
            await person.SeesAsync("is written");
            Assert.Equal(0, await person.SeesTheEndAsync());
        }

        await using (Operator person = Operator.At(100, 30, "skyline", "teach", "--settings", settings))
        {
            await person.SeesAsync("SKYLINE of home, azimuth true, 0 points");
            await TypesAsync(person, "0 6");
            await person.SeesAsync("taken: azimuth 0, elevation 6");
            await person.PressesAsync("Right");
            await person.PressesAsync("Up");
            await person.SeesAsync("at azimuth 005, elevation 7");
            await person.PressesAsync("Enter");
            await person.SeesAsync("2 points");
            await person.PressesAsync("s");
            await person.SeesAsync("the skyline of home is 0:6,5:7");
            Assert.Equal(0, await person.SeesTheEndAsync());
        }

        await using Operator pilot = Operator.At(100, 30, "live", "--settings", settings, "--sessions", _folder.FullName, "--at", "2026-11-26T17:30:00Z", "--speed", "1");
        await pilot.SeesAsync("CHECK");
        await pilot.SeesAsync("BRACKWING 5");
        await pilot.SeesAsync("first sight 7 degrees high in azimuth 15");
        Assert.Equal(0, await pilot.LeavesAsync());
    }

    private static async Task TypesAsync(Operator person, string answer)
    {
        foreach (char letter in answer)
        {
            await person.PressesAsync(letter.ToString());
        }

        await person.PressesAsync("Enter");
    }
}
