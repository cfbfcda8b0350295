using System.Buffers;

namespace Cockpit.Core.Signal;

/// <summary>One line of a picture as text, thinned: a character a pixel, 64 greys. Small enough to be an event and to stand in a journal.</summary>
/// <remarks>The characters are those of base64 (RFC 4648, table 1) in their order: A is black, / is white.</remarks>
public static class GreyRow
{
    /// <summary>Pixels of a row.</summary>
    public const int Width = 128;

    /// <summary>Greys from black to white.</summary>
    public const int Greys = 64;

    private const string Alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    private const int SampleBits = 10;

    private static readonly SearchValues<char> Pixels = SearchValues.Create(Alphabet);

    /// <summary>Thins a line: a pixel is the mean of the samples that fall into it.</summary>
    /// <param name="line">Samples from 0 to 1023, a multiple of the pixels of a row.</param>
    public static string Of(ReadOnlySpan<ushort> line)
    {
        int samples = line.Length / Width;
        Span<char> row = stackalloc char[Width];
        for (int x = 0; x < Width; x++)
        {
            int sum = 0;
            foreach (ushort sample in line.Slice(x * samples, samples))
            {
                sum += sample;
            }

            row[x] = Alphabet[Math.Min(sum * Greys / (samples << SampleBits), Greys - 1)];
        }

        return new string(row);
    }

    /// <summary>The grey of a pixel, 0 to 63; black for what is no pixel.</summary>
    public static int GreyOf(char pixel) => Math.Max(Alphabet.IndexOf(pixel, StringComparison.Ordinal), 0);

    /// <summary>Whether a text is a row, or the empty text of a lost line.</summary>
    public static bool IsRow(string? text) => text is { Length: 0 } || (text is { Length: Width } && text.AsSpan().IndexOfAnyExcept(Pixels) < 0);
}
