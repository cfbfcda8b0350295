using System.Diagnostics;
using System.Globalization;

namespace Cockpit.Commands;

/// <summary>How far a long piece of work has come: a bar on standard error, only when that is a terminal.</summary>
internal sealed class Progress : IDisposable
{
    private const int Width = 40;
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(200);

    private readonly TextWriter _to;
    private readonly long _whole;
    private readonly bool _shown;
    private readonly Stopwatch _since = Stopwatch.StartNew();
    private TimeSpan _last;
    private bool _drawn;

    /// <summary>Begins.</summary>
    /// <param name="whole">How much there is to do.</param>
    /// <param name="to">Standard error.</param>
    public Progress(long whole, TextWriter to)
    {
        _to = to;
        _whole = Math.Max(whole, 1);
        _shown = ReferenceEquals(to, Console.Error) && !Console.IsErrorRedirected && Console.IsOutputRedirected;
    }

    /// <summary>So much is done.</summary>
    public void Reached(long done)
    {
        if (!_shown || _since.Elapsed - _last < Period)
        {
            return;
        }

        _last = _since.Elapsed;
        _drawn = true;
        double share = Math.Clamp((double)done / _whole, 0, 1);
        double left = share > 0 ? _since.Elapsed.TotalSeconds * (1 - share) / share : 0;
        int full = (int)Math.Round(share * Width);
        _to.Write(string.Create(CultureInfo.InvariantCulture, $"\r[{new string('#', full)}{new string('.', Width - full)}] {100 * share,3:0} %  {left,4:0} s left "));
    }

    /// <summary>Takes the bar away.</summary>
    public void Dispose()
    {
        if (_drawn)
        {
            _to.Write("\r" + new string(' ', Width + 24) + "\r");
        }
    }
}
