using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Elements;

/// <summary>The one way to read element sets: TLE, or OMM as KVN, XML, JSON or table, recognised by content and mixed at will.</summary>
public static class ElementSets
{
    /// <summary>Reads every element set of a stream of bytes, UTF-8 with or without a mark at its start.</summary>
    /// <param name="source">Name of the input, for the mistakes.</param>
    /// <param name="stream">The bytes; left open.</param>
    /// <param name="how">How strictly; null means strict.</param>
    public static ElementFile Read(string source, Stream stream, ElementReading? how = null)
    {
        using var reader = new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true, leaveOpen: true);
        return Read(source, reader, how);
    }

    /// <summary>Reads every element set of a text; sets and mistakes come side by side.</summary>
    /// <param name="source">Name of the input, for the mistakes.</param>
    /// <param name="reader">The text; left open.</param>
    /// <param name="how">How strictly; null means strict.</param>
    public static ElementFile Read(string source, TextReader reader, ElementReading? how = null) =>
        Read(source, reader, how, ElementFile.MostCharacters);

    internal static ElementFile Read(string source, TextReader reader, ElementReading? how, long mostCharacters)
    {
        ArgumentNullException.ThrowIfNull(reader);
        var into = new ElementGathering(source);
        var text = new InputReader(reader, mostCharacters);
        bool anything = text.Peek() >= 0;
        new ElementForms(how ?? ElementReading.Strict, into).Read(text);
        Conclude(text, anything, into);
        return into.ToFile();
    }

    private static void Conclude(InputReader text, bool anything, ElementGathering into)
    {
        if (text.Binary is { } found)
        {
            into.Conclude(found.Line, found.Column, string.Create(CultureInfo.InvariantCulture, $"byte 0x{found.Character:X2} found: this is not text; expected a file of element sets, TLE or OMM"));
        }
        else if (text.TooLarge)
        {
            into.Conclude(0, 0, "the input is larger than 64 MiB; split it, what was read so far is used");
        }
        else if (into.IsEmpty)
        {
            into.Conclude(0, 0, anything ? "there is no element set in it; expected TLE or OMM" : "the input is empty; expected element sets, TLE or OMM");
        }
    }
}
