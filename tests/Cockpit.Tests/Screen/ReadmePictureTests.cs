namespace Cockpit.Tests.Screen;

public sealed class ReadmePictureTests
{
    [Fact]
    public void The_picture_in_the_README_is_the_golden_of_the_screen_and_so_cannot_go_stale()
    {
        // Below the text the golden has the map of the roles; the two are apart by the first line of the map.
        string golden = File.ReadAllText(Path.Combine(Repository.Root, "tests", "Cockpit.Tests", "Screen", "Goldens", "move-80x24.golden")).Split("\n\nMMMM")[0].TrimEnd('\n');
        string readme = File.ReadAllText(Path.Combine(Repository.Root, "README.md"));
        Assert.Contains($"```text\n{golden}\n```", readme, StringComparison.Ordinal);
    }
}
