namespace Cockpit.Devices.Ports;

/// <summary>One record of a page.</summary>
internal static class HttpPage
{
    /// <summary>Puts a page on one line: JSON without the white space between its words, else its lines with semicolons between them.</summary>
    /// <param name="page">As it came; changed in place.</param>
    /// <returns>The line, within the page.</returns>
    public static ReadOnlySpan<byte> OneLine(Span<byte> page)
    {
        ReadOnlySpan<byte> text = page.TrimStart(" \t\r\n"u8);
        return !text.IsEmpty && text[0] is (byte)'{' or (byte)'[' ? Compact(page) : Joined(page);
    }

    private static ReadOnlySpan<byte> Compact(Span<byte> page)
    {
        int length = 0;
        bool quoted = false;
        bool escaped = false;
        foreach (byte next in page)
        {
            bool space = next is (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n';
            if (!space || (quoted && next is (byte)' '))
            {
                page[length++] = next;
            }

            quoted ^= next == (byte)'"' && !escaped;
            escaped = quoted && next == (byte)'\\' && !escaped;
        }

        return page[..length];
    }

    private static ReadOnlySpan<byte> Joined(Span<byte> page)
    {
        int end = page.TrimEnd(" \t\r\n"u8).Length;
        for (int at = 0; at < end; at++)
        {
            page[at] = page[at] switch
            {
                (byte)'\n' => (byte)';',
                (byte)'\r' => (byte)' ',
                byte other => other,
            };
        }

        return page[..end];
    }
}
