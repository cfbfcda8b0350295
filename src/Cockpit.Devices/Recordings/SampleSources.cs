using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Recordings;

/// <summary>The sources of samples behind the addresses that people write.</summary>
public static class SampleSources
{
    private const string File = "file:";

    // With options behind it a bare "-" looks like an option itself.
    private const string Stdin = "stdin:";

    /// <summary>Opens an address.</summary>
    /// <param name="address">A file with or without <c>file:</c>, or what <see cref="PortAddress"/> reads, then perhaps ? and options of the samples.</param>
    /// <param name="follow">Whether to go on when the samples end for now.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="watcher">Told what happens to the source.</param>
    /// <param name="source">What the address belongs to, for the error.</param>
    public static Parsed<ISampleSource> Open(string address, bool follow, TimeProvider time, ISourceWatcher watcher, string source)
    {
        if (!SampleOptions.Split(address, source).Try(out (string Address, SampleOptions Options) parts, out ParseError? error))
        {
            return error;
        }

        return Open(parts.Address, parts.Options, follow, time, watcher, source);
    }

    /// <summary>Opens an address whose options are read already.</summary>
    /// <param name="address">Without options.</param>
    /// <param name="options">What is said of the samples.</param>
    /// <param name="follow">Whether to go on when the samples end for now.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="watcher">Told what happens to the source.</param>
    /// <param name="source">What the address belongs to, for the error.</param>
    public static Parsed<ISampleSource> Open(string address, SampleOptions options, bool follow, TimeProvider time, ISourceWatcher watcher, string source)
    {
        string plain = address is Stdin ? "-" : address;
        return plain is "-" || plain.Contains("://", StringComparison.Ordinal)
            ? OpenPort(plain, options, follow, time, watcher, source)
            : OpenFile(plain, options, follow, time, watcher, source);
    }

    private static Parsed<ISampleSource> OpenFile(string address, SampleOptions options, bool follow, TimeProvider time, ISourceWatcher watcher, string source)
    {
        string path = address.StartsWith(File, StringComparison.Ordinal) ? address[File.Length..] : address;
        if (PipePort.IsOne(path))
        {
            return OpenPort(path, new PortAddress(PortKind.File, Path: path), options with { Format = options.Format ?? SampleFormatText.OfEnding(path) }, follow, time, watcher, source);
        }

        return FileSampleSource.Open(path, options, follow || options.FromEnd, time, watcher, source).Try(out FileSampleSource? file, out ParseError? error) ? file : error;
    }

    private static Parsed<ISampleSource> OpenPort(string address, SampleOptions options, bool follow, TimeProvider time, ISourceWatcher watcher, string source) =>
        PortAddress.Read(address, source).Try(out PortAddress? where, out ParseError? error)
            ? OpenPort(address, where, options, follow, time, watcher, source)
            : error;

    private static Parsed<ISampleSource> OpenPort(string address, PortAddress where, SampleOptions options, bool follow, TimeProvider time, ISourceWatcher watcher, string source)
    {
        if (options.Format is not { } format || options.SampleRate is not { } rate)
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(address)} brings bare samples; add ?format=FORMAT&rate=RATE, like ?format=cu8&rate=2400000, the format one of {SampleFormatText.Names}");
        }

        // Whoever writes a recording into a pipe to be measured whole may wait; a receiver may not.
        bool waits = where.Kind is PortKind.StandardInput || (where.Kind is PortKind.File && !follow);
        SampleLayout layout = new(format, rate, options.SkipBytes, null, options.CentreHz, options.Start, options.Exchanged);
        try
        {
            return new PortSampleSource(where.MakePort(time), layout, waits, follow, time, watcher);
        }
        catch (PortException failure)
        {
            return new ParseError(source, 0, 0, failure.Message);
        }
    }
}
