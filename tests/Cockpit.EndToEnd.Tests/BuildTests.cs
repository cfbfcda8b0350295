namespace Cockpit.EndToEnd.Tests;

public sealed class BuildTests
{
    [Fact]
    public void The_program_is_built_beside_the_tests() => Assert.True(File.Exists(Path.Combine(AppContext.BaseDirectory, "cockpit.dll")));
}
