using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats;

/// <summary>The one way to read element sets, whatever their form.</summary>
public static class ElementSets
{
    private const int LongestLine = 512;

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
    public static ElementFile Read(string source, TextReader reader, ElementReading? how = null)
    {
        ArgumentNullException.ThrowIfNull(reader);
        var into = new ElementGathering(source);
        var text = new InputText(reader, ElementFile.MostCharacters);
        var tle = new TleAssembler(how ?? ElementReading.Strict, into);
        bool anything = false;
        for (int number = text.Line; text.ReadLine(LongestLine, out bool cut) is { } line; number = text.Line)
        {
            anything = true;
            if (ControlCharacter(line) is { } column)
            {
                into.Complain(number, column, string.Create(CultureInfo.InvariantCulture, $"byte 0x{(int)line[column - 1]:X2} found: this is not text; expected a file of element sets, TLE or OMM"));
                return into.ToFile();
            }

            if (cut && line[0] != '#')
            {
                into.Complain(number, LongestLine + 1, string.Create(CultureInfo.InvariantCulture, $"the line is longer than {LongestLine} characters; expected TLE or OMM"));
                continue;
            }

            tle.Take(new NumberedLine(line, number));
        }

        tle.Finish();
        Conclude(text, anything, into);
        return into.ToFile();
    }

    private static void Conclude(InputText text, bool anything, ElementGathering into)
    {
        if (text.TooLarge)
        {
            into.Conclude("the input is larger than 64 MiB; split it, what was read so far is used");
        }
        else if (into.IsEmpty)
        {
            into.Conclude(anything ? "there is no element set in it; expected TLE or OMM" : "the input is empty; expected element sets, TLE or OMM");
        }
    }

    private static int? ControlCharacter(string line)
    {
        for (int k = 0; k < line.Length; k++)
        {
            if (line[k] < ' ' && line[k] is not ('\t' or '\f'))
            {
                return k + 1;
            }
        }

        return null;
    }
}
