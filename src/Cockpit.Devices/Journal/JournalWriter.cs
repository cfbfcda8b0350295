using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Keeps the journal of a session on a thread of its own; whoever gives it an event never waits for the disk.</summary>
public sealed class JournalWriter : IAsyncDisposable
{
    /// <summary>How long closing waits for a disk that does not answer.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    private readonly JournalPump _pump;
    private readonly Func<IJournalFile> _rescue;
    private readonly AutoResetEvent _wake = new(initialState: false);
    private readonly TaskCompletionSource _ended = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private volatile bool _stopping;
    private volatile JournalOutcome? _outcome;

    /// <summary>Starts the thread.</summary>
    /// <param name="pump">What it drives; already open, and disposed by the writer at its end.</param>
    /// <param name="rescue">Where everything goes at the end when the disk does not take it; made only if it is needed.</param>
    public JournalWriter(JournalPump pump, Func<IJournalFile> rescue)
    {
        _pump = pump;
        _rescue = rescue;
        new Thread(Run) { IsBackground = true, Name = "journal" }.Start();
    }

    /// <summary>What became of the journal; after the disposal.</summary>
    public JournalOutcome Outcome => _outcome ?? _pump.Outcome with { Trouble = "the disk does not answer" };

    /// <summary>Takes an event; returns at once. Events after the disposal are dropped.</summary>
    public void Append(Envelope envelope)
    {
        if (!_stopping)
        {
            _pump.Add(envelope);
            _wake.Set();
        }
    }

    /// <summary>Waits until everything given so far is on the disk.</summary>
    /// <param name="patience">How long at most.</param>
    /// <returns>Whether it is.</returns>
    public bool WaitUntilWritten(TimeSpan patience) => SpinWait.SpinUntil(() => _pump.IsIdle, patience);

    /// <summary>Writes what is waiting, brings it to the disk and lets the file go.</summary>
    public async ValueTask DisposeAsync()
    {
        _stopping = true;
        _wake.Set();
        await Task.WhenAny(_ended.Task, Task.Delay(Patience, TimeProvider.System, CancellationToken.None));
    }

    private void Run()
    {
        try
        {
            while (!_stopping)
            {
                Guarded(() => _pump.Step());
                _wake.WaitOne(_pump.NextStepIn);
            }

            Guarded(() => _outcome = _pump.Finish(_rescue));
            _outcome ??= _pump.Outcome;
        }
        finally
        {
            _pump.Dispose();
            _ended.SetResult();
        }
    }

    private void Guarded(Action step)
    {
        try
        {
            step();
        }
#pragma warning disable CA1031 // The journal must never end the pass: an unforeseen failure is told and tried again like a full disk.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            _pump.Failed(failure);
        }
    }
}
