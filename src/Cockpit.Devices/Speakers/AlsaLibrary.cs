using System.Globalization;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Cockpit.Devices.Speakers;

/// <summary>The few functions of libasound that are used.</summary>
internal static partial class AlsaLibrary
{
    public const int Playback = 0;
    public const int FormatS16LittleEndian = 2;
    public const int AccessInterleaved = 3;
    private const string Name = "libasound.so.2";

    [LibraryImport(Name, EntryPoint = "snd_pcm_open", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int Open(out nint pcm, string name, int stream, int mode);

    [LibraryImport(Name, EntryPoint = "snd_pcm_set_params")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int SetParameters(nint pcm, int format, int access, uint channels, uint rate, int softResample, uint latencyMicroseconds);

    [LibraryImport(Name, EntryPoint = "snd_pcm_get_params")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int GetParameters(nint pcm, out nuint bufferFrames, out nuint periodFrames);

    [LibraryImport(Name, EntryPoint = "snd_pcm_writei")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial nint Write(nint pcm, ReadOnlySpan<short> frames, nuint count);

    [LibraryImport(Name, EntryPoint = "snd_pcm_recover")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int Recover(nint pcm, int error, int silent);

    [LibraryImport(Name, EntryPoint = "snd_pcm_close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int Close(nint pcm);

    [LibraryImport(Name, EntryPoint = "snd_strerror")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial nint ErrorText(int error);

    /// <summary>Keeps the library from writing into the terminal, where it would tear the screen.</summary>
    public static unsafe void BeQuiet() => _ = SetErrorHandler(&Ignore);

    /// <summary>The library's words for an error.</summary>
    public static string Describe(int error) => Marshal.PtrToStringUTF8(ErrorText(error)) ?? string.Create(CultureInfo.InvariantCulture, $"error {error}");

    [LibraryImport(Name, EntryPoint = "snd_lib_error_set_handler")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static unsafe partial int SetErrorHandler(delegate* unmanaged[Cdecl]<byte*, int, byte*, int, byte*, void> handler);

    // The real one has further arguments; a C caller may pass more than the callee reads.
    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static unsafe void Ignore(byte* file, int line, byte* function, int error, byte* format)
    {
    }
}
