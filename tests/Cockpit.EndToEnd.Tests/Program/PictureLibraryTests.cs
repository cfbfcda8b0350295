using System.Diagnostics;
using Cockpit.Tests;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>The library that draws PNG files lies beside the program, and is needed for nothing else.</summary>
public sealed class PictureLibraryTests : IDisposable
{
    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");
    private readonly CockpitProcess _cockpit = new();

    [Fact]
    public async Task Pictures_are_drawn_by_the_program_that_people_get()
    {
        string folder = Path.Combine(_cockpit.Folder, "pictures");
        (int code, string output, string error) = await _cockpit.RunAsync("review", Sample, "--pictures", folder);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("received of", output, StringComparison.Ordinal);
        Assert.Equal(5, Directory.GetFiles(folder, "*.png").Length); // no reactions in it
    }

    [Fact]
    public async Task Without_the_library_one_sentence_says_so_and_everything_else_goes_on()
    {
        // The program alone, without what lies beside it.
        string alone = Directory.CreateDirectory(Path.Combine(_cockpit.Folder, "alone")).FullName;
        string[] words = ProgramUnderTest.Words;
        foreach (string file in Directory.GetFiles(Path.GetDirectoryName(ProgramUnderTest.File)!).Where(f => Path.GetExtension(f) is ".dll" or ".json" or "" && !f.Contains("Sharp.so", StringComparison.Ordinal)))
        {
            File.Copy(file, Path.Combine(alone, Path.GetFileName(file)));
        }

        words[^1] = Path.Combine(alone, Path.GetFileName(words[^1]));
        Assert.Equal((0, ""), await Of([.. words, "review", Sample, "--page", Path.Combine(alone, "page.html")]));
        (int code, string error) = await Of([.. words, "review", Sample, "--pictures", Path.Combine(alone, "pictures")]);
        Assert.Equal(1, code);
        Assert.Matches(@"\A--pictures: the picture library cannot be loaded \(lib\w+Sharp\); put it beside the program, or take --page, which needs none\r?\n\z", error);
        Assert.False(Directory.Exists(Path.Combine(alone, "pictures")));
    }

    public void Dispose() => _cockpit.Dispose();

    private static async Task<(int Code, string Error)> Of(string[] words)
    {
        using Process process = Process.Start(new ProcessStartInfo(words[0], words[1..]) { UseShellExecute = false, RedirectStandardError = true, RedirectStandardOutput = true })!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));
        await output;
        return (process.ExitCode, error);
    }
}
