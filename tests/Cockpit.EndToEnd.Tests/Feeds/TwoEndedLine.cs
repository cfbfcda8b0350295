using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A serial line whose other end is in the hands of the test: a pseudo terminal of Linux.</summary>
internal sealed class TwoEndedLine : IDisposable
{
    private const int ReadAndWrite = 2;
    private const int NoControllingTerminal = 0x100;

    /// <summary>Else a program that another test starts meanwhile would hold the far end, and the line could not be pulled out (open(2), O_CLOEXEC).</summary>
    private const int NotForChildren = 0x80000;

    private readonly FileStream _far;

    public TwoEndedLine()
    {
        int descriptor = OpenTerminal(ReadAndWrite | NoControllingTerminal | NotForChildren);
        Assert.True(descriptor >= 0, "no pseudo terminal can be opened");
        Assert.Equal(0, Grant(descriptor) | Unlock(descriptor));
        byte[] name = new byte[128];
        Assert.Equal(0, NameOf(descriptor, name, name.Length));
        Device = System.Text.Encoding.ASCII.GetString(name.AsSpan(0, name.AsSpan().IndexOf((byte)0)));
        _far = new FileStream(new SafeFileHandle(descriptor, ownsHandle: true), FileAccess.Write, bufferSize: 0);
    }

    /// <summary>The near end.</summary>
    public string Device { get; }

    public void Send(string text) => _far.Write(System.Text.Encoding.ASCII.GetBytes(text));

    /// <summary>Pulls the line out.</summary>
    public void Dispose() => _far.Dispose();

    [DllImport("libc", EntryPoint = "posix_openpt")]
    private static extern int OpenTerminal(int flags);

    [DllImport("libc", EntryPoint = "grantpt")]
    private static extern int Grant(int descriptor);

    [DllImport("libc", EntryPoint = "unlockpt")]
    private static extern int Unlock(int descriptor);

    [DllImport("libc", EntryPoint = "ptsname_r")]
    private static extern int NameOf(int descriptor, byte[] name, nint length);
}
