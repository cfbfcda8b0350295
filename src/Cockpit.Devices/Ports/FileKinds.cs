using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace Cockpit.Devices.Ports;

/// <summary>What stands under a path.</summary>
public enum FileKind
{
    /// <summary>Nothing, or nothing that this user may look at.</summary>
    Missing = 0,

    /// <summary>An ordinary file.</summary>
    Regular = 1,

    /// <summary>A folder.</summary>
    Folder = 2,

    /// <summary>A pipe with a name: opening it waits for the other side.</summary>
    Pipe = 3,

    /// <summary>A device or a socket: it may have no end.</summary>
    Device = 4,
}

/// <summary>Asks the system what stands under a path, without opening it.</summary>
public static partial class FileKinds
{
    /// <summary>Room for the structure of statx, 256 bytes on every processor (statx(2) of Linux).</summary>
    private const int StatxBytes = 256;
    private const int StatxModeAt = 28;
    private const uint StatxType = 1;
    private const int WorkingDirectory = -100;

    /// <summary>What stands under a path; links are followed.</summary>
    /// <remarks>Only Linux tells pipes and devices apart from files; elsewhere they count as regular.</remarks>
    public static FileKind Of(string path)
    {
        if (Directory.Exists(path))
        {
            return FileKind.Folder;
        }

        if (!File.Exists(path))
        {
            return FileKind.Missing;
        }

        Span<byte> answer = stackalloc byte[StatxBytes];
        return OperatingSystem.IsLinux() && Statx(WorkingDirectory, path, 0, StatxType, answer) == 0
            ? OfMode(BinaryPrimitives.ReadUInt16LittleEndian(answer[StatxModeAt..]))
            : FileKind.Regular;
    }

    /// <summary>The kind with its article, for sentences.</summary>
    public static string Word(FileKind kind) => kind switch
    {
        FileKind.Folder => "a folder",
        FileKind.Pipe => "a pipe",
        FileKind.Device => "a device",
        FileKind.Regular => "a file",
        _ => "not there",
    };

    /// <summary>File types of the mode: inode(7) of Linux.</summary>
    private static FileKind OfMode(int mode) => (mode & 0xF000) switch
    {
        0x8000 => FileKind.Regular,
        0x4000 => FileKind.Folder,
        0x1000 => FileKind.Pipe,
        _ => FileKind.Device,
    };

    [LibraryImport("libc", EntryPoint = "statx", StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Statx(int directory, string path, int flags, uint mask, Span<byte> answer);
}
