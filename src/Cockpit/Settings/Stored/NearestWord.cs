namespace Cockpit.Settings.Stored;

/// <summary>The known word that a mistyped one was meant to be.</summary>
public static class NearestWord
{
    /// <summary>The nearest of some words; null where none is near enough to be meant.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="known">What may stand there.</param>
    public static string? Of(string text, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(known);
        const int longest = 40;
        if (text.Length > longest)
        {
            return null;
        }

        return known
            .Select(word => (Word: word, Steps: Steps(text.ToLowerInvariant(), word)))
            .Where(pair => pair.Steps <= Math.Max(1, Math.Max(pair.Word.Length, text.Length) / 3) || IsBeginning(text, pair.Word))
            .OrderBy(pair => IsBeginning(text, pair.Word) ? 0 : pair.Steps)
            .Select(pair => pair.Word)
            .FirstOrDefault();
    }

    /// <summary>The unit was left out: "altitude" for "altitude_m".</summary>
    private static bool IsBeginning(string text, string word) => text.Length >= 4 && word.StartsWith(text, StringComparison.OrdinalIgnoreCase);

    /// <summary>Letters to insert, delete or change, or neighbours to exchange (the restricted distance of Damerau 1964).</summary>
    private static int Steps(string from, string to)
    {
        int[,] least = new int[from.Length + 1, to.Length + 1];
        for (int i = 0; i <= from.Length; i++)
        {
            for (int j = 0; j <= to.Length; j++)
            {
                if (i == 0 || j == 0)
                {
                    least[i, j] = i + j;
                    continue;
                }

                int change = least[i - 1, j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
                least[i, j] = Math.Min(change, Math.Min(least[i - 1, j], least[i, j - 1]) + 1);
                if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
                {
                    least[i, j] = Math.Min(least[i, j], least[i - 2, j - 2] + 1);
                }
            }
        }

        return least[from.Length, to.Length];
    }
}
