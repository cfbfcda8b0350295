using Cockpit.Core.Dsp.SplitPhase;

namespace Cockpit.Devices.Recordings;

/// <summary>The quick look as a PNG file.</summary>
public static class QuickLookFile
{
    /// <summary>Writes all lines of it, lost ones black.</summary>
    /// <param name="path">The file; replaced if it is there.</param>
    /// <param name="look">At least one line.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static void Write(string path, QuickLook look)
    {
        ArgumentNullException.ThrowIfNull(look);
        PngFile.WriteGrey(path, MinorFrame.EarthSamples, look.Lines, (y, line) =>
        {
            for (int x = 0; x < line.Length; x++)
            {
                line[x] = (byte)(look[y][x] >> 2);
            }
        });
    }
}
