using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Recordings;

/// <summary>An address that brings samples, as a person writes it; nothing is opened yet.</summary>
/// <param name="Text">Without its options.</param>
/// <param name="Options">What it says of the samples.</param>
public sealed record SampleAddress(string Text, SampleOptions Options)
{
    private const string File = "file:";

    /// <summary>Whether it is a file; a pipe with a name is none, what comes out of it is sent.</summary>
    public bool IsFile => Text.StartsWith(File, StringComparison.Ordinal) && !PipePort.IsOne(Text[File.Length..]);

    /// <summary>Whether that file is there now.</summary>
    public bool FileExists => System.IO.File.Exists(Path);

    private string Path => Text.StartsWith(File, StringComparison.Ordinal) ? Text[File.Length..] : Text;

    /// <summary>Whether an address brings samples: it says their form, or it is a file whose name does; else it brings lines.</summary>
    /// <param name="text">As the person wrote it.</param>
    public static bool IsOne(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (HttpPort.IsOne(text))
        {
            // What stands behind the question mark of a page is for its server.
            return false;
        }

        int mark = text.LastIndexOf('?');
        bool says = mark >= 0 && (text.IndexOf("format=", mark, StringComparison.Ordinal) > 0 || text.IndexOf("rate=", mark, StringComparison.Ordinal) > 0);
        return says || (text.StartsWith(File, StringComparison.Ordinal) && TellsItself(text[File.Length..(mark < 0 ? text.Length : mark)]));
    }

    /// <summary>Reads an address of samples.</summary>
    /// <param name="text">As the person wrote it.</param>
    /// <param name="source">What it belongs to, for the error.</param>
    public static Parsed<SampleAddress> Read(string text, string source) =>
        SampleOptions.Split(text, source).Try(out (string Address, SampleOptions Options) parts, out ParseError? error)
            ? new SampleAddress(parts.Address is "-" ? "stdin:" : parts.Address, parts.Options)
            : error;

    /// <summary>Opens it, to be followed whatever happens.</summary>
    /// <param name="fromEnd">A file from its present end, where the address does not say otherwise.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="watcher">Told what happens to it.</param>
    public Parsed<ISampleSource> Open(bool fromEnd, TimeProvider time, ISourceWatcher watcher) =>
        SampleSources.Open(Text, Options with { FromEnd = IsFile && fromEnd && !Options.FromStart, Newest = !Options.FromStart }, true, time, watcher, Text);

    private static bool TellsItself(string path) =>
        path.EndsWith(".wav", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".rf64", StringComparison.OrdinalIgnoreCase)
        || path.EndsWith(SigmfMeta.MetaEnding, StringComparison.OrdinalIgnoreCase) || path.EndsWith(SigmfMeta.DataEnding, StringComparison.OrdinalIgnoreCase)
        || SampleFormatText.OfEnding(path) is not null;
}
