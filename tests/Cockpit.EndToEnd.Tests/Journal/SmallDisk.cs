using System.Globalization;
using System.Runtime.InteropServices;
using Cockpit.Devices.Files;
using Cockpit.Devices.Journal;

namespace Cockpit.EndToEnd.Tests.Journal;

/// <summary>A small disk: a file system of its own where it may be mounted, else files that take no more than that.</summary>
internal sealed class SmallDisk : IDisposable
{
    private const int NotPermitted = 1;
    private const ulong Remount = 32;

    private readonly bool _mounted;
    private readonly long _bytes;
    private LimitedFile? _limited;

    public SmallDisk(string path, int kilobytes = 64)
    {
        Path = path;
        _bytes = kilobytes * 1024L;
        Directory.CreateDirectory(path);
        _mounted = OperatingSystem.IsLinux() && Mount("tmpfs", path, "tmpfs", 0, string.Create(CultureInfo.InvariantCulture, $"size={kilobytes}k")) == 0;
        Assert.True(_mounted || !OperatingSystem.IsLinux() || Marshal.GetLastPInvokeError() == NotPermitted, "mounting failed for another reason than a missing right");
    }

    public string Path { get; }

    /// <summary>Whether it is a file system of its own, with an end of its own.</summary>
    public bool IsMounted => _mounted;

    /// <summary>What is left of it.</summary>
    public long FreeBeside(string path) => _mounted ? DiskSpace.FreeBeside(path) ?? 0 : _bytes - new DirectoryInfo(Path).EnumerateFiles().Sum(file => file.Length);

    public IJournalFile Open(string path)
    {
        JournalFile file = new(path);
        return _mounted ? file : _limited = new LimitedFile(file) { Room = _bytes };
    }

    /// <summary>Makes room.</summary>
    public void Grow()
    {
        if (_mounted)
        {
            Assert.Equal(0, Mount("tmpfs", Path, "tmpfs", Remount, "size=1m"));
        }
        else
        {
            _limited!.Room = long.MaxValue;
        }
    }

    public void Dispose()
    {
        if (_mounted)
        {
            Assert.Equal(0, Unmount(Path, 0));
        }
    }

    [DllImport("libc", EntryPoint = "mount", SetLastError = true, CharSet = CharSet.Ansi)]
    private static extern int Mount(string source, string target, string type, ulong flags, string options);

    [DllImport("libc", EntryPoint = "umount2", SetLastError = true, CharSet = CharSet.Ansi)]
    private static extern int Unmount(string target, int flags);

    private sealed class LimitedFile(JournalFile file) : IJournalFile
    {
        public long Room { get; set; }

        public string Path => file.Path;

        public JournalPlace Look() => file.Look();

        public void Open() => file.Open();

        public string MoveAside() => file.MoveAside();

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            int fits = (int)Math.Clamp(Room - offset, 0, bytes.Length);
            file.Write(bytes[..fits], offset);
            if (fits < bytes.Length)
            {
                throw new IOException("No space left on device");
            }
        }

        public void Sync() => file.Sync();

        public void Close() => file.Close();

        public void Dispose() => file.Dispose();
    }
}
