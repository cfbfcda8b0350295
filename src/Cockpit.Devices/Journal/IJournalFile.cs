namespace Cockpit.Devices.Journal;

/// <summary>What lies under the name of a journal.</summary>
public enum JournalPlaceKind
{
    /// <summary>Nothing.</summary>
    Nothing = 0,

    /// <summary>The file that was opened last.</summary>
    Ours = 1,

    /// <summary>Another file, a link, a folder.</summary>
    Other = 2,
}

/// <summary>What lies under the name of a journal, and how long it is.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Length">Its length, bytes; 0 for nothing.</param>
public readonly record struct JournalPlace(JournalPlaceKind Kind, long Length);

/// <summary>Where the bytes of a journal go; the seam at which a test lets the disk fail.</summary>
/// <remarks>Every method but <see cref="Close"/> may throw <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>; the writer copes and tries again.</remarks>
public interface IJournalFile : IDisposable
{
    /// <summary>Path for people.</summary>
    string Path { get; }

    /// <summary>Looks what lies under the name now; never waits.</summary>
    JournalPlace Look();

    /// <summary>Opens our file where it is there, else makes a new one, and its folder; never opens another file.</summary>
    void Open();

    /// <summary>Gives what lies under the name another name beside it, so that nothing of it is lost.</summary>
    /// <returns>That name, without the folder.</returns>
    string MoveAside();

    /// <summary>Writes at a place from the start of the file, bytes.</summary>
    void Write(ReadOnlySpan<byte> bytes, long offset);

    /// <summary>Brings everything written to the disk itself.</summary>
    void Sync();

    /// <summary>Lets the file go; never throws.</summary>
    void Close();
}
