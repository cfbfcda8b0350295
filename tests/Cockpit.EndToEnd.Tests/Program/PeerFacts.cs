using System.Runtime.InteropServices;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>What some tests need beside the program; where it is missing they are reported as skipped, by name and reason.</summary>
internal static class Peers
{
    /// <summary>The browser's program.</summary>
    public const string Browser = "chromium";

    /// <summary>Why there is no sound library; null where there is one.</summary>
    public static string? NoSoundLibrary { get; } = OperatingSystem.IsLinux() && NativeLibrary.TryLoad("libasound.so.2", out _)
        ? null
        : "libasound.so.2 is missing; on Debian install libasound2";

    /// <summary>Why no terminal can be made; null where one can.</summary>
    public static string? NoTerminal { get; } = IsOnPath("script")
        ? null
        : "script, which makes a terminal for the program, is missing; on Debian install bsdutils";

    /// <summary>Why no named pipe can be made; null where one can.</summary>
    public static string? NoNamedPipe { get; } = IsOnPath("mkfifo")
        ? null
        : "mkfifo is missing; on Debian install coreutils";

    /// <summary>Why nothing can be spoken; null where it can.</summary>
    public static string? NoSpeech { get; } = IsOnPath("espeak-ng")
        ? null
        : "espeak-ng, which speaks the words, is missing; on Debian install espeak-ng";

    /// <summary>Why there is no rig server; null where there is one.</summary>
    public static string? NoRigServer { get; } = IsOnPath("rigctld")
        ? null
        : "rigctld, the rig server with its dummy rig, is missing; on Debian install libhamlib-utils";

    /// <summary>Why there is no gpsd with its simulated receiver; null where there is one.</summary>
    public static string? NoGpsd { get; } = IsOnPath("gpsfake") && IsOnPath("gpsd")
        ? null
        : "gpsd, or gpsfake that plays a receiver to it, is missing; on Debian install gpsd, gpsd-clients and python3-gps";

    /// <summary>Why there is no time server; null where there is one.</summary>
    public static string? NoTimeServer { get; } = IsOnPath("chronyd")
        ? null
        : "chronyd, the time server, is missing; on Debian install chrony";

    /// <summary>Why there is no browser; null where there is one.</summary>
    public static string? NoBrowser { get; } = IsOnPath(Browser)
        ? null
        : "chromium, the browser that pages are looked at with, is missing; on Debian install chromium";

    /// <summary>Why there is no reader of manual pages; null where there is one.</summary>
    public static string? NoManualReader { get; } = IsOnPath("mandoc")
        ? null
        : "mandoc, which checks the manual page, is missing; on Debian install mandoc";

    /// <summary>Why there is no shell whose completion can be tried; null where there is one.</summary>
    public static string? NoShell { get; } = IsOnPath("bash")
        ? null
        : "bash, in which the completion is tried, is missing; on Debian install bash";

    private static bool IsOnPath(string program) => !OperatingSystem.IsWindows()
        && $"{Environment.GetEnvironmentVariable("PATH")}:/usr/sbin".Split(':').Any(folder => File.Exists(Path.Combine(folder, program)));
}

/// <summary>A test that has the manual page checked.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ManualFactAttribute : FactAttribute
{
    public ManualFactAttribute() => Skip = Peers.NoManualReader;
}

/// <summary>A test that types into a shell.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ShellFactAttribute : FactAttribute
{
    public ShellFactAttribute() => Skip = Peers.NoShell;
}

/// <summary>A test that plays through the sound library of Linux.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class SoundLibraryFactAttribute : FactAttribute
{
    public SoundLibraryFactAttribute() => Skip = Peers.NoSoundLibrary;
}

/// <summary>A test that runs the program in a terminal of its own.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class TerminalFactAttribute : FactAttribute
{
    public TerminalFactAttribute() => Skip = Peers.NoTerminal;
}

/// <summary>Like <see cref="TerminalFactAttribute"/>, for several cases.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class TerminalTheoryAttribute : TheoryAttribute
{
    public TerminalTheoryAttribute() => Skip = Peers.NoTerminal;
}

/// <summary>A test that needs a pipe with a name in the file system.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NamedPipeFactAttribute : FactAttribute
{
    public NamedPipeFactAttribute() => Skip = Peers.NoNamedPipe;
}

/// <summary>A test in which a program speaks.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class SpeechFactAttribute : FactAttribute
{
    public SpeechFactAttribute() => Skip = Peers.NoSpeech;
}

/// <summary>A test against the real rig server.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class RigServerFactAttribute : FactAttribute
{
    public RigServerFactAttribute() => Skip = Peers.NoRigServer;
}

/// <summary>A test against the real gpsd.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class GpsdFactAttribute : FactAttribute
{
    public GpsdFactAttribute() => Skip = Peers.NoGpsd;
}

/// <summary>A test against a real time server.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class TimeServerFactAttribute : FactAttribute
{
    public TimeServerFactAttribute() => Skip = Peers.NoTimeServer;
}

/// <summary>A test that looks at a page in a browser.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ChromiumFactAttribute : FactAttribute
{
    public ChromiumFactAttribute() => Skip = Peers.NoBrowser;
}

/// <summary>A test that makes a serial line of two ends, which only Unix has.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class SerialLineFactAttribute : FactAttribute
{
    public SerialLineFactAttribute() => Skip = OperatingSystem.IsLinux() ? null : "serial lines of two ends are made on Linux only";
}
