using System.Globalization;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>How far a long computation is, as one line of a terminal that is drawn over itself and gone at the end.</summary>
/// <remarks>Nothing is shown of what is over in half a second. Safe from any thread.</remarks>
/// <param name="output">The terminal; null shows nothing.</param>
/// <param name="time">What the pauses between two drawings go by.</param>
/// <param name="total">How many there are to do.</param>
/// <param name="what">What they are called.</param>
internal sealed class ProgressBar(TextWriter? output, TimeProvider time, int total, string what)
{
    private const int Cells = 30;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan Period = TimeSpan.FromSeconds(0.1);

    private readonly Lock _gate = new();
    private readonly long _start = time.GetTimestamp();
    private TimeSpan _next = Patience;
    private int _drawn;

    /// <summary>A bar on standard error where that is a terminal, else one that shows nothing.</summary>
    /// <param name="complaints">Where the command complains to.</param>
    /// <param name="time">What the pauses go by.</param>
    /// <param name="total">How many there are to do.</param>
    /// <param name="what">What they are called.</param>
    public static ProgressBar OnTerminal(TextWriter complaints, TimeProvider time, int total, string what)
    {
        TextWriter behind = CleanWriter.TerminalBehind(complaints);
        return new ProgressBar(ReferenceEquals(behind, Console.Error) && !Console.IsErrorRedirected ? behind : null, time, total, what);
    }

    /// <summary>So many are done.</summary>
    public void Show(int done)
    {
        if (output is null)
        {
            return;
        }

        lock (_gate)
        {
            TimeSpan since = time.GetElapsedTime(_start);
            if (since < _next || done < _drawn)
            {
                return;
            }

            _drawn = done;
            _next = since + Period;
            double share = total == 0 ? 1.0 : (double)done / total;
            int full = (int)(share * Cells);
            output.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"\r[{new string('#', full)}{new string('-', Cells - full)}] {100 * share,3:0} %  {done} of {total} {what}"));
            output.Flush();
        }
    }

    /// <summary>Takes the line away.</summary>
    public void Clear()
    {
        lock (_gate)
        {
            if (_drawn > 0)
            {
                // Back to the first column, then erase to the end of the line (ECMA-48, EL).
                output?.Write("\r\u001b[K");
                output?.Flush();
            }
        }
    }
}
