namespace Cockpit.Devices.Phone;

/// <summary>A file that only its owner may read, written whole or not at all.</summary>
internal static class OwnedFile
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const UnixFileMode OwnerFolder = OwnerOnly | UnixFileMode.UserExecute;

    /// <summary>Writes it.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The same.</exception>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        string folder = Path.GetDirectoryName(path) ?? ".";
        FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (OperatingSystem.IsWindows())
        {
            // The folder of the user's settings is the user's own there.
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, OwnerFolder);
            options.UnixCreateMode = OwnerOnly;
        }

        string whole = $"{path}.{Guid.NewGuid():N}";
        try
        {
            using (FileStream file = new(whole, options))
            {
                file.Write(bytes);
                file.Flush(flushToDisk: true);
            }

            File.Move(whole, path, overwrite: true);
        }
        finally
        {
            File.Delete(whole);
        }
    }

    /// <summary>Reads it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="longest">A longer one is none.</param>
    /// <returns>Null where there is none.</returns>
    /// <exception cref="IOException">It cannot be read, or is too long.</exception>
    /// <exception cref="UnauthorizedAccessException">The same.</exception>
    public static byte[]? Read(string path, int longest)
    {
        if (!File.Exists(path))
        {
            return null;
        }

        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        if (file.Length > longest)
        {
            throw new IOException("it is too long");
        }

        byte[] bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes;
    }

    /// <summary>Whether others than the owner may read it.</summary>
    public static bool IsOpenToOthers(string path) => !OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & ~OwnerFolder) != UnixFileMode.None;
}
