using Cockpit.Core.Dsp;

namespace Cockpit.Core.Formats.Recordings;

/// <summary>Names of sample formats.</summary>
/// <remarks>The names are those of core:datatype in the SigMF specification v1; without an ending they mean least significant byte first.</remarks>
public static class SampleFormatText
{
    /// <summary>The usual names, for help texts.</summary>
    public const string Names = "cu8, ci8, ci16, ci24, ci32 or cf32 (least significant byte first)";

    private static readonly (string Name, SampleFormat Format)[] Known =
    [
        ("cu8", SampleFormat.Cu8), ("ci8", SampleFormat.Ci8), ("cs8", SampleFormat.Ci8),
        ("ci16_le", SampleFormat.Ci16Le), ("ci16", SampleFormat.Ci16Le), ("cs16le", SampleFormat.Ci16Le), ("cs16", SampleFormat.Ci16Le), ("ci16_be", SampleFormat.Ci16Be),
        ("ci24_le", SampleFormat.Ci24Le), ("ci24", SampleFormat.Ci24Le), ("ci32_le", SampleFormat.Ci32Le), ("ci32", SampleFormat.Ci32Le),
        ("cf32_le", SampleFormat.Cf32Le), ("cf32", SampleFormat.Cf32Le), ("cfile", SampleFormat.Cf32Le), ("cf32_be", SampleFormat.Cf32Be),
    ];

    /// <summary>Reads a name, small or capital letters alike.</summary>
    public static Parsed<SampleFormat> Read(string text, string source) =>
        Find(text) ?? (Parsed<SampleFormat>)new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a sample format; write {Names}");

    /// <summary>The name in the SigMF specification; of 24 bit, which has none there, ci24_le.</summary>
    public static string NameOf(SampleFormat format) => format switch
    {
        SampleFormat.Cu8 => "cu8",
        SampleFormat.Ci8 => "ci8",
        SampleFormat.Ci16Le => "ci16_le",
        SampleFormat.Ci16Be => "ci16_be",
        SampleFormat.Ci24Le => "ci24_le",
        SampleFormat.Ci32Le => "ci32_le",
        SampleFormat.Cf32Le => "cf32_le",
        _ => "cf32_be",
    };

    /// <summary>The format that the ending of a file's name suggests; null where it suggests none.</summary>
    /// <param name="path">Path or name of the file.</param>
    public static SampleFormat? OfEnding(string path)
    {
        int dot = path.LastIndexOf('.');
        return dot < 0 ? null : Find(path[(dot + 1)..]);
    }

    private static SampleFormat? Find(string text)
    {
        foreach ((string name, SampleFormat format) in Known)
        {
            if (string.Equals(name, text, StringComparison.OrdinalIgnoreCase))
            {
                return format;
            }
        }

        return null;
    }
}
