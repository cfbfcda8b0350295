using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;

namespace Cockpit.Devices.Recordings;

/// <summary>What happens in a session and is to be noted in the recording of its samples: handed over from the thread of the session to that of the samples.</summary>
public sealed class RecordingMarks
{
    private const int MostWaiting = 256;

    private readonly ConcurrentQueue<(string Label, string Comment)> _waiting = new();
    private volatile string? _pass;

    /// <summary>The pass that is under way, in words; null where none is.</summary>
    public string? Pass
    {
        get => _pass;
        set => _pass = value;
    }

    /// <summary>Notes a moment.</summary>
    /// <param name="label">At most 20 characters.</param>
    /// <param name="comment">The same for people.</param>
    public void Add(string label, string comment)
    {
        // Before the first samples nobody takes them.
        if (_waiting.Count < MostWaiting)
        {
            _waiting.Enqueue((label, comment));
        }
    }

    /// <summary>Takes the oldest moment that was not noted yet.</summary>
    public bool TryTake([MaybeNullWhen(false)] out (string Label, string Comment) mark) => _waiting.TryDequeue(out mark);
}
