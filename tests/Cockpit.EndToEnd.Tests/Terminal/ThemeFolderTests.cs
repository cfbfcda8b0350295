using System.Diagnostics;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Screen.Themes;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>The screen opens whatever lies in the themes folder.</summary>
public sealed class ThemeFolderTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-themes-");

    [NamedPipeFact]
    public void A_link_to_a_device_that_never_ends_takes_no_more_than_a_theme_may_have()
    {
        File.CreateSymbolicLink(Path.Combine(_folder.FullName, "zero.json"), "/dev/zero");
        ThemeCatalog shelf = ThemeCatalog.Load(_folder.FullName);
        Assert.Equal("Theme not used: zero.json: larger than 64 KiB.", shelf.Trouble);
        Assert.Equal(4, shelf.Themes.Length);
    }

    [NamedPipeFact]
    public async Task A_pipe_without_a_writer_is_waited_for_a_second_and_told()
    {
        using (Process mkfifo = Process.Start("mkfifo", [Path.Combine(_folder.FullName, "pipe.json")]))
        {
            await mkfifo.WaitForExitAsync();
        }

        await File.WriteAllTextAsync(Path.Combine(_folder.FullName, "a.json"), """{ "name": "plain", "roles": { "Plain": {} } }""");
        long start = Stopwatch.GetTimestamp();
        ThemeCatalog shelf = ThemeCatalog.Load(_folder.FullName);
        Assert.InRange(Stopwatch.GetElapsedTime(start).TotalSeconds, 0.9, 5);
        Assert.Equal("Theme not used: pipe.json does not answer; is it a file?", shelf.Trouble);
        Assert.NotNull(shelf.Find("plain"));
        Assert.NotNull(shelf.Find("dusk"));
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
