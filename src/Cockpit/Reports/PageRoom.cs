namespace Cockpit.Reports;

/// <summary>Where words stand already in a picture, so that none is written over another; whoever asks first is served.</summary>
internal sealed class PageRoom
{
    private const double LetterWidth = 6.4;
    private const double LetterHeight = 11.0;
    private const double Between = 4.0;

    private readonly List<(double Left, double Right, double Bottom)> _taken = [];

    /// <summary>Takes the room of a word, unless something stands there.</summary>
    /// <param name="x">Its anchor.</param>
    /// <param name="y">Its base line.</param>
    /// <param name="word">The word.</param>
    /// <param name="anchor">start, middle or end.</param>
    public bool Takes(double x, double y, string word, string anchor)
    {
        double width = LetterWidth * word.Length;
        double left = x - (width * anchor switch { "end" => 1.0, "middle" => 0.5, _ => 0.0 });
        if (_taken.Exists(t => left < t.Right + Between && t.Left < left + width + Between && Math.Abs(t.Bottom - y) < LetterHeight))
        {
            return false;
        }

        _taken.Add((left, left + width, y));
        return true;
    }
}
