namespace Cockpit.Devices.Files;

/// <summary>What is left of a disk.</summary>
public static class DiskSpace
{
    /// <summary>Bytes that may still be written beside a file; null where that cannot be asked.</summary>
    /// <param name="path">The file, or a folder; it need not be there yet.</param>
    public static long? FreeBeside(string path)
    {
        try
        {
            string? folder = Path.GetDirectoryName(Path.GetFullPath(path));
            while (folder is { Length: > 0 } && !Directory.Exists(folder))
            {
                folder = Path.GetDirectoryName(folder);
            }

            return new DriveInfo(folder is { Length: > 0 } there ? there : "/").AvailableFreeSpace;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return null;
        }
    }
}
