using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Wiring;

/// <summary>The journal of a session whose events come from no bus.</summary>
public sealed class KeptSession : IAsyncDisposable
{
    private readonly JournalWriter _journal;

    private KeptSession(string path, JournalWriter journal) => (Path, _journal) = (path, journal);

    /// <summary>Folder of the session.</summary>
    public string Path { get; }

    /// <summary>What went wrong with it, one sentence; null when it is whole. After the disposal.</summary>
    public string? Trouble => _journal.Outcome.IsWhole ? null : _journal.Outcome.Sentence(Path);

    /// <summary>Makes the folder and begins the journal.</summary>
    /// <param name="root">Folder that holds the sessions.</param>
    /// <param name="settings">What the session is about.</param>
    /// <param name="start">Its begin, UTC.</param>
    public static Parsed<KeptSession> Begin(string root, SessionSettings settings, DateTimeOffset start)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return SessionFolder.Create(root, start, settings.SatelliteName).Try(out SessionFolder? folder, out ParseError? error)
            && folder.StartJournal(new Unheard(), TimeProvider.System, settings.ProgramVersion).Try(out JournalWriter? journal, out error)
            ? new KeptSession(folder.Path, journal)
            : error;
    }

    /// <summary>Keeps an event.</summary>
    public void Append(Envelope envelope) => _journal.Append(envelope);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _journal.DisposeAsync();

    /// <summary>What the journal says about itself would come between the records; its outcome is told at the end.</summary>
    private sealed class Unheard : IEventSink
    {
        public void Publish(string source, SessionEvent sessionEvent)
        {
        }
    }
}
