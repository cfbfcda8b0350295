using System.IO.Compression;
using System.Text.Json;
using Cockpit.Session.Review;

namespace Cockpit.Devices.Journal;

/// <summary>What a review needs of a session, kept beside its journal so that the next review need not fold it again; never needed, and made again when stale.</summary>
/// <remarks>It holds for one program and one state of the journal: its length and the time of its last write.</remarks>
public static class ReviewLogFile
{
    /// <summary>Its name in the folder of the session.</summary>
    public const string FileName = "review.json.br";

    private const int Version = 1;

    /// <summary>A pass of an hour at ten records a second has about 4 MB.</summary>
    private const int MostBytes = 64 << 20;

    /// <summary>Reads it.</summary>
    /// <param name="session">Folder of the session.</param>
    /// <param name="program">Which program asks: what another one made may be by other rules.</param>
    /// <returns>Null where there is none that holds.</returns>
    public static ReviewLog? Read(string session, string program)
    {
        if (StampOf(session, program) is not { } stamp)
        {
            return null;
        }

        try
        {
            using FileStream file = File.OpenRead(Path.Combine(session, FileName));
            using BrotliStream unpacked = new(file, CompressionMode.Decompress);
            using MemoryStream text = new();
            byte[] buffer = new byte[64 * 1024];
            while (unpacked.Read(buffer) is > 0 and var read)
            {
                if (text.Length + read > MostBytes)
                {
                    return null;
                }

                text.Write(buffer, 0, read);
            }

            ReadOnlySpan<byte> all = text.GetBuffer().AsSpan(0, (int)text.Length);
            int end = all.IndexOf((byte)'\n');
            return end > 0 && all[..end].SequenceEqual(System.Text.Encoding.UTF8.GetBytes(stamp))
                ? (ReviewLog?)JsonSerializer.Deserialize(all[(end + 1)..], EventJson.For(typeof(ReviewLog)))
                : null;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or InvalidDataException or InvalidOperationException or JsonException or EventJsonException)
        {
            return null;
        }
    }

    /// <summary>Keeps it; where that is not possible the next review takes as long as this one.</summary>
    /// <param name="session">Folder of the session; nothing happens where it is none.</param>
    /// <param name="program">Which program made it.</param>
    /// <param name="log">What is kept, of the journal as it stands.</param>
    public static void Write(string session, string program, ReviewLog log)
    {
        if (StampOf(session, program) is not { } stamp)
        {
            return;
        }

        string beside = Path.Combine(session, $"{FileName}.{Guid.NewGuid():N}");
        try
        {
            using (BrotliStream packed = new(File.Create(beside), CompressionLevel.Fastest))
            {
                packed.Write(System.Text.Encoding.UTF8.GetBytes(stamp + "\n"));
                JsonSerializer.Serialize(packed, log, EventJson.For(typeof(ReviewLog)));
            }

            File.Move(beside, Path.Combine(session, FileName), overwrite: true);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            TryDelete(beside);
        }
    }

    private static string? StampOf(string session, string program)
    {
        try
        {
            return SessionFolder.JournalIn(session) is { } path && new FileInfo(path) is { Exists: true } journal
                ? FormattableString.Invariant($"cockpit review log {Version}, {journal.Length} bytes of {journal.LastWriteTimeUtc:O}, by {program}").ReplaceLineEndings(" ")
                : null;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }
    }

    private static void TryDelete(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // A disk that takes nothing gives nothing back either.
        }
    }
}
