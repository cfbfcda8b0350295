using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Cockpit.Devices.Files;

/// <summary>What lies under a path.</summary>
public enum FileKind
{
    /// <summary>A file with a length.</summary>
    Regular = 0,

    /// <summary>A folder.</summary>
    Folder = 1,

    /// <summary>A link to something else.</summary>
    Link = 2,

    /// <summary>A pipe with a name.</summary>
    Pipe = 3,

    /// <summary>A device, or a socket: endless, or not to be read at all.</summary>
    Device = 4,
}

/// <summary>Kind, length and identity of a file, asked without opening it: opening a pipe would wait for a writer.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Length">Its length, bytes.</param>
/// <param name="Identity">Device and inode; null where the system does not tell them.</param>
public readonly partial record struct FileStatus(FileKind Kind, long Length, (ulong Device, ulong Inode)? Identity)
{
    // Layout and numbers of struct statx are the same on every Linux: linux/stat.h, statx(2).
    private const int StatusBytes = 256;
    private const int WorkingFolder = -100;
    private const int NoFollow = 0x100;
    private const int EmptyPath = 0x1000;
    private const uint BasicFields = 0x7ff;
    private const int NoEntry = 2;
    private const int NotAFolder = 20;

    /// <summary>The kind with its article, for sentences.</summary>
    public string KindInWords => Kind switch
    {
        FileKind.Regular => "a file",
        FileKind.Folder => "a folder",
        FileKind.Link => "a link",
        FileKind.Pipe => "a pipe",
        _ => "a device",
    };

    /// <summary>What lies under a path; null when there is nothing.</summary>
    /// <param name="path">The path.</param>
    /// <param name="follow">Whether a link stands for what it leads to.</param>
    /// <exception cref="IOException">The system does not say.</exception>
    public static FileStatus? Of(string path, bool follow) =>
        OperatingSystem.IsLinux() ? Ask(WorkingFolder, path, follow ? 0 : NoFollow) : Portable(path, follow);

    /// <summary>The status of an open file.</summary>
    /// <exception cref="IOException">The system does not say.</exception>
    public static FileStatus Of(SafeFileHandle file)
    {
        ArgumentNullException.ThrowIfNull(file);
        if (!OperatingSystem.IsLinux())
        {
            return new FileStatus(FileKind.Regular, RandomAccess.GetLength(file), null);
        }

        bool held = false;
        try
        {
            file.DangerousAddRef(ref held);
            return Ask((int)file.DangerousGetHandle(), "", EmptyPath) ?? throw new IOException("the open file is gone");
        }
        finally
        {
            if (held)
            {
                file.DangerousRelease();
            }
        }
    }

    private static FileStatus? Ask(int folder, string path, int flags)
    {
        Span<byte> status = stackalloc byte[StatusBytes];
        if (Statx(folder, path, flags, BasicFields, status) != 0)
        {
            int error = Marshal.GetLastPInvokeError();
            return error is NoEntry or NotAFolder ? null : throw new IOException(Marshal.GetPInvokeErrorMessage(error));
        }

        ulong device = ((ulong)UInt(status, 136) << 32) | UInt(status, 140);
        FileKind kind = (MemoryMarshal.Read<ushort>(status[28..]) & 0xF000) switch
        {
            0x8000 => FileKind.Regular,
            0x4000 => FileKind.Folder,
            0xA000 => FileKind.Link,
            0x1000 => FileKind.Pipe,
            _ => FileKind.Device,
        };
        return new FileStatus(kind, MemoryMarshal.Read<long>(status[40..]), (device, MemoryMarshal.Read<ulong>(status[32..])));
    }

    private static uint UInt(ReadOnlySpan<byte> status, int at) => MemoryMarshal.Read<uint>(status[at..]);

    private static FileStatus? Portable(string path, bool follow)
    {
        FileSystemInfo lies = Directory.Exists(path) ? new DirectoryInfo(path) : new FileInfo(path);
        return !lies.Exists ? null
            : !follow && lies.LinkTarget is not null ? new FileStatus(FileKind.Link, 0, null)
            : lies is FileInfo file ? new FileStatus(FileKind.Regular, file.Length, null)
            : new FileStatus(FileKind.Folder, 0, null);
    }

    [LibraryImport("libc", EntryPoint = "statx", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Statx(int folder, string path, int flags, uint fields, Span<byte> status);
}
