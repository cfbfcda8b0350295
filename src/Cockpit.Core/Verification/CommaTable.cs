namespace Cockpit.Core.Verification;

/// <summary>Reads the plain comma tables of the reference values: comments (#), one line of headings, no quoting.</summary>
public static class CommaTable
{
    /// <summary>The rows, each by heading.</summary>
    public static IEnumerable<IReadOnlyDictionary<string, string>> Rows(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[]? headings = null;
        foreach (string line in text.Split('\n').Select(l => l.TrimEnd('\r')).Where(l => l.Length > 0 && l[0] != '#'))
        {
            string[] cells = line.Split(',');
            if (headings is null)
            {
                headings = cells;
                continue;
            }

            yield return headings.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal);
        }
    }
}
