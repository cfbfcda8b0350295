using System.Diagnostics;
using Cockpit.Devices.Journal;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Journal;

/// <summary>What is given for a session and is no file with an end.</summary>
public sealed class OddFileTests : IDisposable
{
    private readonly CockpitProcess _cockpit = new();

    public void Dispose() => _cockpit.Dispose();

    [NamedPipeFact]
    public async Task A_pipe_a_device_and_a_huge_file_are_refused_at_once_in_one_sentence()
    {
        string pipe = Path.Combine(_cockpit.Folder, "pipe");
        using (Process make = Process.Start("mkfifo", [pipe]))
        {
            await make.WaitForExitAsync();
        }

        string link = Path.Combine(_cockpit.Folder, "link");
        File.CreateSymbolicLink(link, "/dev/zero");
        string huge = Path.Combine(_cockpit.Folder, "huge");
        using (FileStream file = File.Create(huge))
        {
            file.SetLength(JournalReader.LargestFile + 1);
        }

        Assert.Equal($"{pipe}: this is a pipe, not the file of a session; give the folder of a session", Recording.ReadAll(pipe).Error?.ToString());
        Assert.Equal($"{link}: this is a device, not the file of a session; give the folder of a session", Recording.ReadAll(link).Error?.ToString());
        Assert.Equal($"{huge}: the file has 2147483649 bytes; a session of more than 2147483648 bytes is not read", Recording.ReadAll(huge).Error?.ToString());
        (int code, string output, string error) = await _cockpit.RunAsync("check", "session", pipe);
        Assert.Equal((2, ""), (code, output));
        Assert.Contains("is a pipe", error, StringComparison.Ordinal);
    }
}
