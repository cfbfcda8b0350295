namespace Cockpit.Session.State;

/// <summary>What the pass has brought so far, by the decoder's lock.</summary>
/// <param name="Sent">Time since the rise, of this session.</param>
/// <param name="Received">Of it with lock.</param>
/// <param name="Possible">Of the whole pass, what a well-pointed dish can receive by the link budget.</param>
public sealed record PassTally(TimeSpan Sent, TimeSpan Received, TimeSpan Possible)
{
    /// <summary>Lines lost so far: the pictures of these services come in six lines a second (common practice, no source).</summary>
    public int LinesLost => (int)Math.Round(LinesPerSecond * (Sent - Received).TotalSeconds);

    private const double LinesPerSecond = 6.0;
}
