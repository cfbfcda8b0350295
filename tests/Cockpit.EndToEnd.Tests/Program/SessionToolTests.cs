using System.Diagnostics;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Tests;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>What is done with sessions afterwards, by the program as people get it: the native one has no reflection.</summary>
public sealed class SessionToolTests : IDisposable
{
    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2", "session.jsonl");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-tools-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task A_session_is_packed_listed_mended_exported_and_shared()
    {
        string session = _folder.CreateSubdirectory("pass").FullName;
        File.Copy(Sample, Path.Combine(session, "session.jsonl"));
        await RunAsync("sessions", "pack", session, "--replace");
        Assert.Contains("cut off", await RunAsync("sessions", "--sessions", _folder.FullName), StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(_folder.FullName, "index.json")));
        Assert.Contains("nothing is damaged", await RunAsync("sessions", "mend", session), StringComparison.Ordinal);

        string table = Path.Combine(_folder.FullName, "pass.parquet");
        await RunAsync("export", session, "--out", table);
        byte[] bytes = await File.ReadAllBytesAsync(table);
        Assert.Equal(("PAR1", "PAR1"), (System.Text.Encoding.ASCII.GetString(bytes[..4]), System.Text.Encoding.ASCII.GetString(bytes[^4..])));
        Assert.InRange(bytes.Length, 30_000, 200_000);

        string shared = Path.Combine(_folder.FullName, "shared.jsonl.br");
        await RunAsync("share", session, shared);
        Assert.True(Recording.ReadAll(shared).Try(out Recording? recording, out ParseError? error), $"{error}");
        Assert.True(recording.IsUndamaged);
        Assert.Contains("received of", await RunAsync("review", shared), StringComparison.Ordinal);
    }

    private static async Task<string> RunAsync(params string[] words)
    {
        using Process process = Process.Start(ProgramUnderTest.Start(words)) ?? throw new InvalidOperationException("the program did not start");
        Task<string> complaints = process.StandardError.ReadToEndAsync();
        string output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.Equal((0, ""), (process.ExitCode, await complaints));
        return output;
    }
}
