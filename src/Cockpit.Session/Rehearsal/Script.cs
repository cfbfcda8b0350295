using System.Collections;

namespace Cockpit.Session.Rehearsal;

/// <summary>Runs what a hand does one step of 0.1 s at a time; a script yields null for a step, or another script to run first.</summary>
internal sealed class Script
{
    private readonly Stack<IEnumerator> _running = new();

    public Script(IEnumerator first) => _running.Push(first);

    /// <summary>Goes on to the next step; does nothing after the end.</summary>
    public void Step()
    {
        while (_running.TryPeek(out IEnumerator? top))
        {
            if (!top.MoveNext())
            {
                _running.Pop();
            }
            else if (top.Current is IEnumerator inner)
            {
                _running.Push(inner);
            }
            else
            {
                return;
            }
        }
    }
}
