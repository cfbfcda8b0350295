using System.Globalization;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Puts names and lines 1 and 2 together as they come, and says what belongs to nothing.</summary>
/// <param name="how">How strictly lines are read.</param>
/// <param name="into">Where sets and mistakes go.</param>
internal sealed class TleAssembler(ElementReading how, ElementGathering into)
{
    private const int LongestName = 128;
    private NumberedLine? _name;
    private NumberedLine? _first;
    private NumberedLine? _loneSecond;
    private bool _strayRun;

    /// <summary>Takes the next line; comments and blank lines have been left out.</summary>
    internal void Take(NumberedLine line)
    {
        if (TleLine.Is(line.Text, '1'))
        {
            SettleFirst();
            _first = line;
        }
        else if (TleLine.Is(line.Text, '2'))
        {
            TakeSecond(line);
        }
        else
        {
            Finish(keepStrayRun: true);
            _name = line;
        }
    }

    /// <summary>Nothing more of this form follows: what is still open is a mistake.</summary>
    internal void Finish() => Finish(keepStrayRun: false);

    private void Finish(bool keepStrayRun)
    {
        SettleFirst();
        SettleSecond();
        if (_name is { } name && !_strayRun)
        {
            into.Complain(name.Number, name.Indent + 1, $"\"{Shown(name.Text)}\" is neither line 1 or 2 of a TLE nor a name before them; expected TLE or OMM");
        }

        _strayRun = keepStrayRun && _name is not null;
        _name = null;
    }

    private void TakeSecond(NumberedLine second)
    {
        if (_first is { } first)
        {
            SettleSecond();
            TlePair.Read(CleanName(), first, second, how, into);
            (_first, _name, _strayRun) = (null, null, false);
            return;
        }

        SettleSecond();
        _loneSecond = second;
        _strayRun = false;
    }

    /// <summary>A line 1 that got no line 2; right after a lone line 2 of the same number the two are swapped.</summary>
    private void SettleFirst()
    {
        if (_first is { } first)
        {
            bool swapped = _loneSecond is { } second && second.Number < first.Number
                && second.Text.AsSpan(2, 5).SequenceEqual(first.Text.AsSpan(2, 5));
            into.Complain(
                swapped ? _loneSecond!.Value.Number : first.Number,
                1,
                swapped ? "line 2 stands before line 1; put them in the order 1, 2" : "line 1 is not followed by its line 2; get the element set again");
            _loneSecond = swapped ? null : _loneSecond;
            _name = null;
        }

        _first = null;
    }

    private void SettleSecond()
    {
        if (_loneSecond is { } second)
        {
            into.Complain(second.Number, 1, "line 2 has no line 1 before it; get the element set again");
            _name = null;
        }

        _loneSecond = null;
    }

    private NumberedLine? CleanName()
    {
        if (_name is not { } name)
        {
            return null;
        }

        ReadOnlySpan<char> text = name.Text.StartsWith("0 ", StringComparison.Ordinal) ? name.Text.AsSpan(2) : name.Text;
        text = text.Trim();
        return text.IsEmpty ? null : new NumberedLine(text[..Math.Min(LongestName, text.Length)].ToString(), name.Number);
    }

    private static string Shown(string text) =>
        text.Length <= 40 ? text : string.Create(CultureInfo.InvariantCulture, $"{text.AsSpan(0, 40)}...");
}
