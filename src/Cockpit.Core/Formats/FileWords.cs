namespace Cockpit.Core.Formats;

/// <summary>Why a file could not be opened, read or written, in our words: those of the runtime repeat the path and name parameters of the code.</summary>
public static class FileWords
{
    private const int ExistsOnUnix = 17;                          // EEXIST of errno(3)
    private const int FileExists = unchecked((int)0x80070050);    // ERROR_FILE_EXISTS
    private const int AlreadyExists = unchecked((int)0x800700B7); // ERROR_ALREADY_EXISTS
    private const int SharingViolation = unchecked((int)0x80070020); // ERROR_SHARING_VIOLATION
    private const int LockViolation = unchecked((int)0x80070021); // ERROR_LOCK_VIOLATION

    /// <summary>The reason, fit for the middle of a sentence that has named the path already.</summary>
    public static string Of(Exception failure)
    {
        ArgumentNullException.ThrowIfNull(failure);
        return failure switch
        {
            FileNotFoundException or DirectoryNotFoundException => "there is no such file or folder",
            PathTooLongException => "the path is too long",
            UnauthorizedAccessException => "this user may not, or it is a folder",
            ArgumentException or NotSupportedException => "that is not the path of a file",
            { HResult: SharingViolation or LockViolation } => "another program has it open",
            { HResult: ExistsOnUnix or FileExists or AlreadyExists } => "something else of that name is in the way",
            _ => WithoutPath(failure.Message),
        };
    }

    /// <summary>Some messages end in <c>: 'PATH'</c>, some in a full stop.</summary>
    private static string WithoutPath(string message)
    {
        int path = message.IndexOf(" : '", StringComparison.Ordinal);
        return (path > 0 ? message[..path] : message).TrimEnd('.');
    }
}
