namespace Cockpit.Devices.Journal;

/// <summary>The longest run of values, not necessarily neighbours, in which each is higher than the one before.</summary>
internal static class RisingRun
{
    /// <summary>Which of the values belong to it.</summary>
    /// <param name="values">The values in their order.</param>
    /// <param name="strictly">Whether two equal values are one too many.</param>
    /// <remarks>Patience sorting, n log n; a list that rises anyway is only gone through. Source: M. L. Fredman, Discrete Mathematics 11 (1975) 29 (from memory).</remarks>
    public static bool[] Of(ReadOnlySpan<long> values, bool strictly)
    {
        bool[] chosen = new bool[values.Length];
        if (Rises(values, strictly))
        {
            Array.Fill(chosen, true);
            return chosen;
        }

        // At each length the end of the run of that length whose last value is lowest, and for each value the one before it.
        int[] ends = new int[values.Length];
        int[] before = new int[values.Length];
        int longest = 0;
        for (int i = 0; i < values.Length; i++)
        {
            int length = LengthBefore(values, ends.AsSpan(0, longest), values[i], strictly);
            before[i] = length > 0 ? ends[length - 1] : -1;
            ends[length] = i;
            longest = Math.Max(longest, length + 1);
        }

        for (int at = ends[longest - 1]; at >= 0; at = before[at])
        {
            chosen[at] = true;
        }

        return chosen;
    }

    private static bool Rises(ReadOnlySpan<long> values, bool strictly)
    {
        for (int i = 1; i < values.Length; i++)
        {
            if (!Follows(values[i - 1], values[i], strictly))
            {
                return false;
            }
        }

        return true;
    }

    private static int LengthBefore(ReadOnlySpan<long> values, ReadOnlySpan<int> ends, long value, bool strictly)
    {
        int low = 0;
        int high = ends.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (Follows(values[ends[middle]], value, strictly))
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    private static bool Follows(long one, long next, bool strictly) => strictly ? one < next : one <= next;
}
