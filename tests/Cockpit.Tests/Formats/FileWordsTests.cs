using Cockpit.Core.Formats;

namespace Cockpit.Tests.Formats;

public sealed class FileWordsTests
{
    public static TheoryData<Exception, string> Failures => new()
    {
        { new FileNotFoundException("Could not find file '/proc/x'."), "there is no such file or folder" },
        { new DirectoryNotFoundException("Could not find a part of the path '/a/b'."), "there is no such file or folder" },
        { new UnauthorizedAccessException("Access to the path '/a' is denied."), "this user may not, or it is a folder" },
        { new NotSupportedException("The given path's format is not supported."), "that is not the path of a file" },
        { new IOException("The file 'dang' already exists.", 17), "something else of that name is in the way" },
        { new IOException(@"The process cannot access the file 'C:\a' because it is being used by another process.", unchecked((int)0x80070020)), "another program has it open" },
        { new IOException("No space left on device : '/mnt/x'"), "No space left on device" },
        { new IOException("Read-only file system."), "Read-only file system" },
    };

    [Theory]
    [MemberData(nameof(Failures))]
    public void A_failure_of_a_file_is_told_without_paths_and_names_of_parameters(Exception failure, string words) => Assert.Equal(words, FileWords.Of(failure));
}
