using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;

namespace Cockpit.Commands;

/// <summary>Reads what stands behind --horizon: a file, or pairs.</summary>
public static class HorizonInput
{
    /// <summary>Reads the mask.</summary>
    /// <param name="text">A path of a file that exists, or pairs AZ:EL.</param>
    public static Parsed<HorizonMask> Read(string text)
    {
        const string option = "--horizon";
        if (!File.Exists(text) && text.Contains(':', StringComparison.Ordinal))
        {
            return HorizonText.Read(text, option);
        }

        return InputFiles.ReadLines(text, option).Try(out string[]? lines, out ParseError? error)
            ? HorizonText.ReadLines(lines, text)
            : error;
    }
}
