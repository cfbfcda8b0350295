namespace Cockpit.Core.Dsp;

/// <summary>A line in a spectrum: what has no width of its own.</summary>
/// <param name="Hz">Its frequency.</param>
/// <param name="Ratio">Its highest bin above the local floor; 1 = no line.</param>
/// <param name="Power">Its power above the local floor.</param>
public readonly record struct SpectralLine(double Hz, double Ratio, double Power);

/// <summary>Finds the strongest lines of a spectrum.</summary>
public static class LineSearch
{
    /// <summary>Bins of one line on each side of its highest (Hann window, drift within the block).</summary>
    public const int HalfWidth = 3;

    private const int FloorBins = 64;

    /// <summary>The strongest lines within a range, strongest first.</summary>
    /// <param name="spectrum">The spectrum, from minus half the sample rate upwards.</param>
    /// <param name="sampleRate">Samples a second.</param>
    /// <param name="centre">Middle of the range, hertz.</param>
    /// <param name="halfRange">Half its width, hertz.</param>
    /// <param name="blindHalfWidth">Nothing is looked for within so many bins of the centre of the recording, where DC is; negative = everywhere.</param>
    /// <param name="leastRatio">What a line must reach.</param>
    /// <param name="to">Written.</param>
    /// <returns>How many were written.</returns>
    public static int Strongest(
        WindowSpectrum spectrum, double sampleRate, double centre, double halfRange, int blindHalfWidth, double leastRatio, Span<SpectralLine> to)
    {
        ReadOnlySpan<float> power = spectrum.Power;
        double step = sampleRate / spectrum.Size;
        int middle = spectrum.Size / 2;
        int first = Math.Max(HalfWidth + 1, middle + (int)Math.Floor((centre - halfRange) / step));
        int last = Math.Min(spectrum.Size - HalfWidth - 2, middle + (int)Math.Ceiling((centre + halfRange) / step));
        int found = 0;
        for (int k = first; k <= last; k++)
        {
            if (Math.Abs(k - middle) <= blindHalfWidth || !IsPeak(power, k))
            {
                continue;
            }

            // The place of a weaker line costs a sort: look at the floor only where it can matter.
            if (found == to.Length && power[k] <= to[found - 1].Power)
            {
                continue;
            }

            if (StandsOut(power, k, leastRatio))
            {
                found = Insert(to, found, new SpectralLine(k, power[k] / Floor(power, k), power[k]));
            }
        }

        for (int m = 0; m < found; m++)
        {
            to[m] = Refine(power, (int)to[m].Hz, to[m].Ratio, step, middle);
        }

        return found;
    }

    private static bool IsPeak(ReadOnlySpan<float> power, int k)
    {
        float peak = power[k];
        return peak > power[k - 1] && peak >= power[k + 1] && peak > power[k - 2] && peak >= power[k + 2];
    }

    private static int Insert(Span<SpectralLine> lines, int found, SpectralLine line)
    {
        int at = found;
        while (at > 0 && lines[at - 1].Power < line.Power)
        {
            at--;
        }

        if (at == lines.Length)
        {
            return found;
        }

        int kept = Math.Min(found, lines.Length - 1);
        lines[at..kept].CopyTo(lines[(at + 1)..]);
        lines[at] = line;
        return kept + 1;
    }

    private static SpectralLine Refine(ReadOnlySpan<float> power, int k, double ratio, double step, int middle)
    {
        // Parabola through the logarithms of three bins: for a Hann window good to about a hundredth of a bin.
        double left = Math.Log(power[k - 1] + 1e-30), peak = Math.Log(power[k] + 1e-30), right = Math.Log(power[k + 1] + 1e-30);
        double curve = left - (2 * peak) + right;
        double shift = curve < 0 ? Math.Clamp(0.5 * (left - right) / curve, -0.5, 0.5) : 0;
        float floor = Floor(power, k);
        double above = 0;
        for (int m = k - HalfWidth; m <= k + HalfWidth; m++)
        {
            above += power[m] - floor;
        }

        return new SpectralLine((k - middle + shift) * step, ratio, Math.Max(above, 0) / power.Length);
    }

    // Whether the floor is low enough, without sorting for it: nearly every peak of noise ends here.
    private static bool StandsOut(ReadOnlySpan<float> power, int k, double leastRatio)
    {
        float limit = (float)(power[k] / leastRatio);
        int from = Math.Max(0, k - FloorBins), to = Math.Min(power.Length - 1, k + FloorBins);
        int count = 0, below = 0;
        for (int m = from; m <= to; m++)
        {
            bool counts = Math.Abs(m - k) > HalfWidth + 1;
            count += counts ? 1 : 0;
            below += counts && power[m] <= limit ? 1 : 0;
        }

        return below > count / 2;
    }

    // Median of the bins around, the line itself left out.
    private static float Floor(ReadOnlySpan<float> power, int k)
    {
        Span<float> around = stackalloc float[2 * FloorBins];
        int count = 0;
        for (int m = Math.Max(0, k - FloorBins); m <= Math.Min(power.Length - 1, k + FloorBins); m++)
        {
            if (Math.Abs(m - k) > HalfWidth + 1)
            {
                around[count++] = power[m];
            }
        }

        around = around[..count];
        around.Sort();
        return Math.Max(around[count / 2], 1e-30f);
    }
}
