using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Session.Bus;

/// <summary>Hands each value to every part in the order they were added, and keeps one part's failure away from the others.</summary>
/// <remarks>
/// The one policy for parts that fail: the first failure is named in a <see cref="PartFailed"/>, later ones are not told again, and the part
/// is called again with the next value. A screen that could not paint one frame, or a journal that could not take one event, is worth more
/// in the rest of the pass than nothing. Safe from any thread; <see cref="Send"/> is to be called by one thread at a time.
/// </remarks>
/// <typeparam name="T">What is handed on.</typeparam>
/// <param name="sink">Where a failure is told.</param>
public sealed class FanOut<T>(IEventSink sink)
{
    private readonly Lock _gate = new();
    private ImmutableArray<Part> _parts = [];

    /// <summary>Adds a part; it gets what is sent from now on, until the returned object is disposed.</summary>
    /// <param name="name">Name for the message.</param>
    /// <param name="take">Called for each value, on the sending thread: must be quick.</param>
    public IDisposable Add(string name, Action<T> take)
    {
        Part part = new(this, name, take);
        lock (_gate)
        {
            _parts = _parts.Add(part);
        }

        return part;
    }

    /// <summary>Hands a value to every part.</summary>
    public void Send(T value)
    {
        ImmutableArray<Part> parts;
        lock (_gate)
        {
            parts = _parts;
        }

        foreach (Part part in parts)
        {
            part.Take(value);
        }
    }

    private sealed class Part(FanOut<T> owner, string name, Action<T> take) : IDisposable
    {
        private volatile bool _out;
        private bool _told;

        public void Take(T value)
        {
            if (_out)
            {
                return;
            }

            try
            {
                take(value);
            }
#pragma warning disable CA1031 // One failing part must never end the pass: it is named, and called again with the next value.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                owner.Tell(ref _told, name, failure);
            }
        }

        public void Dispose()
        {
            _out = true;
            lock (owner._gate)
            {
                owner._parts = owner._parts.Remove(this);
            }
        }
    }

    private void Tell(ref bool told, string name, Exception failure)
    {
        if (!told)
        {
            told = true;
            sink.Publish(Sources.Program, new PartFailed(name, failure.Message));
        }
    }
}
