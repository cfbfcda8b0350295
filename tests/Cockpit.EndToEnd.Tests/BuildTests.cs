using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests;

public sealed class BuildTests
{
    [Fact]
    public void The_program_that_is_tested_is_there() => Assert.True(File.Exists(ProgramUnderTest.File), ProgramUnderTest.File);
}
