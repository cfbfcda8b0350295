namespace Cockpit.Tests.Commands;

public sealed class CheckSignalCommandTests
{
    [Fact]
    public async Task A_folder_without_recordings_is_told()
    {
        CommandRun run = await CommandRun.Of("check", "signal", "/no/such/folder");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("/no/such/folder", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_does_not_tell_its_rate_is_refused_in_one_sentence()
    {
        string path = Path.Combine(Path.GetTempPath(), $"cockpit-{Guid.NewGuid():N}.cu8");
        await File.WriteAllBytesAsync(path, new byte[100]);
        try
        {
            CommandRun run = await CommandRun.Of("meter", "file:" + path);

            Assert.Equal(2, run.ExitCode);
            Assert.Contains("add ?rate=3000000", run.Error, StringComparison.Ordinal);
            Assert.Empty(run.Output);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
