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
}
