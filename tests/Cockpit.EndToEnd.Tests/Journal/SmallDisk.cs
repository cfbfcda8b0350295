using System.Runtime.InteropServices;
using Cockpit.Devices.Journal;

namespace Cockpit.EndToEnd.Tests.Journal;

/// <summary>A disk of 64 kB: a file system of its own where it may be mounted, else files that take no more than that.</summary>
internal sealed class SmallDisk : IDisposable
{
    private const int Small = 64 * 1024;
    private const int NotPermitted = 1;
    private const ulong Remount = 32;

    private readonly bool _mounted;
    private LimitedFile? _limited;

    public SmallDisk(string path)
    {
        Path = path;
        Directory.CreateDirectory(path);
        _mounted = OperatingSystem.IsLinux() && Mount("tmpfs", path, "tmpfs", 0, "size=64k") == 0;
        Assert.True(_mounted || !OperatingSystem.IsLinux() || Marshal.GetLastPInvokeError() == NotPermitted, "mounting failed for another reason than a missing right");
    }

    public string Path { get; }

    public IJournalFile Open(string path)
    {
        JournalFile file = new(path);
        return _mounted ? file : _limited = new LimitedFile(file);
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
        public long Room { get; set; } = Small;

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
