namespace Cockpit.Devices.Journal;

/// <summary>Where the bytes of a journal go; the seam at which a test lets the disk fail.</summary>
/// <remarks>Every method may throw <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>; the writer copes and tries again.</remarks>
public interface IJournalFile : IDisposable
{
    /// <summary>Path for people.</summary>
    string Path { get; }

    /// <summary>Opens the file, or makes it; may be called again after <see cref="Close"/>.</summary>
    /// <returns>Its length, bytes.</returns>
    long Open();

    /// <summary>Writes at a place from the start of the file, bytes.</summary>
    void Write(ReadOnlySpan<byte> bytes, long offset);

    /// <summary>Brings everything written to the disk itself, and makes sure that the file is still under its name.</summary>
    void Sync();

    /// <summary>Lets the file go; never throws.</summary>
    void Close();
}
