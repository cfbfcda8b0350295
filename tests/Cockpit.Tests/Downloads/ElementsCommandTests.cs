using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Downloads;

public sealed class ElementsCommandTests : IDisposable
{
    private static readonly string Sets = Path.Combine(Repository.Root, "tests", "data", "reference", "satellites.tle");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-elements-");

    private string Target => Path.Combine(_folder.FullName, "elements.txt");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task The_list_tells_age_and_usual_error()
    {
        CommandRun run = await CommandRun.Of("elements", "--elements", Sets, "--satellite", "99129", "--at", "2026-11-26T17:50:30Z", "--format", "csv");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Matches("^satellite,catalog_number,epoch_utc,age_days,along_track_up_to_km,along_track_up_to_s,counsel\n[^,]+,99129,2026-11-2[0-9T:.Z]+,[0-9.]+,[0-9.]+,[0-9.]+,(good|update soon|too old: update)\n$", run.Output);
    }

    [Fact]
    public async Task An_update_puts_sets_there_that_the_other_commands_read()
    {
        await using TestServer server = new() { Answer = TestServer.Page(await File.ReadAllTextAsync(Sets)) };
        CommandRun run = await CommandRun.Of("elements", "update", "--address", server.Address.AbsoluteUri, "--elements", Target);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Matches("elements.txt is new: [0-9]+ satellites, the middle one -?[0-9.]+ days old", run.Output);
        Assert.Equal(await File.ReadAllTextAsync(Sets), await File.ReadAllTextAsync(Target));
        CommandRun again = await CommandRun.Of("elements", "update", "--address", server.Address.AbsoluteUri, "--elements", Target);
        Assert.Equal(0, again.ExitCode);
        Assert.Contains("so that the server has peace", again.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_of_words_never_takes_the_place_of_elements()
    {
        File.Copy(Sets, Target);
        await using TestServer server = new() { Answer = TestServer.Page("<html><body>Please log in</body></html>") };
        CommandRun run = await CommandRun.Of("elements", "update", "--address", server.Address.AbsoluteUri, "--elements", Target);
        Assert.Equal(1, run.ExitCode);
        Assert.Contains("there is no element set in it", run.Error, StringComparison.Ordinal);
        Assert.Contains("stays as it was", run.Error, StringComparison.Ordinal);
        Assert.Equal(await File.ReadAllTextAsync(Sets), await File.ReadAllTextAsync(Target));
    }

    [Theory]
    [InlineData("ftp://elements.example/x")]
    [InlineData("elements.txt")]
    public async Task An_address_that_is_no_web_page_is_refused(string address)
    {
        CommandRun run = await CommandRun.Of("elements", "update", "--address", address);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("is not the address of a web page", run.Error, StringComparison.Ordinal);
    }
}
