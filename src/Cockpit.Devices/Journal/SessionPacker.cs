using System.Globalization;
using System.IO.Compression;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Journal;

/// <summary>Packs the journal of a session, and unpacks it; nothing is said to be done before it was read back and compared.</summary>
public static class SessionPacker
{
    // Measured on a pass of 15 minutes at 10 Hz: quality 11 is a quarter smaller and takes thirty times as long.
    private const int Quality = 9;
    private const int ChunkBytes = 64 * 1024;

    /// <summary>Writes the packed journal beside the plain one.</summary>
    /// <param name="path">Folder of the session, or its journal.</param>
    /// <param name="replace">Whether the plain one is removed once the packed one is known to be good.</param>
    /// <returns>What was written, or one sentence why nothing was.</returns>
    public static Parsed<PackedFile> Pack(string path, bool replace)
    {
        string plain = Directory.Exists(path) ? Path.Combine(path, SessionFolder.JournalName) : path;
        if (SessionFolder.IsPacked(plain) || (!File.Exists(plain) && File.Exists(plain + SessionFolder.PackedEnding)))
        {
            return new ParseError(path, 0, 0, "the session is packed already");
        }

        return new FileInfo(plain) is { Exists: true, Length: > JournalReader.LargestUnpacked }
            ? new ParseError(path, 0, 0, string.Create(CultureInfo.InvariantCulture, $"a session of more than {JournalReader.LargestUnpacked} bytes is not packed"))
            : Make(path, plain, plain + SessionFolder.PackedEnding, replace, WritePacked);
    }

    /// <summary>Writes the plain journal beside the packed one.</summary>
    /// <param name="path">Folder of the session, or its packed journal.</param>
    /// <param name="replace">Whether the packed one is removed once the plain one is known to be good.</param>
    /// <returns>What was written, or one sentence why nothing was.</returns>
    public static Parsed<PackedFile> Unpack(string path, bool replace)
    {
        string packed = Directory.Exists(path) ? Path.Combine(path, SessionFolder.JournalName + SessionFolder.PackedEnding) : path;
        return !SessionFolder.IsPacked(packed) || !File.Exists(packed)
            ? new ParseError(path, 0, 0, $"there is no packed session here; it ends in {SessionFolder.PackedEnding}")
            : Make(path, packed, packed[..^SessionFolder.PackedEnding.Length], replace, WriteUnpacked);
    }

    private static Parsed<PackedFile> Make(string path, string from, string to, bool replace, Action<string, string> write)
    {
        if (!JournalReader.Open(from).Try(out JournalReader? reader, out ParseError? error))
        {
            return error with { Source = path };
        }

        reader.Dispose();
        if (Path.Exists(to))
        {
            return new ParseError(path, 0, 0, $"{Path.GetFileName(to)} is there already; move one of the two away first");
        }

        string part = to + ".part";
        try
        {
            DateTime written = File.GetLastWriteTimeUtc(from);
            write(from, part);
            if (!SameText(from, part))
            {
                File.Delete(part);
                return new ParseError(path, 0, 0, "what was written does not read back as the session: is it still being written to? Nothing was changed");
            }

            File.SetLastWriteTimeUtc(part, written);
            File.Move(part, to, overwrite: false);
            var done = new PackedFile(to, new FileInfo(from).Length, new FileInfo(to).Length);
            if (replace)
            {
                File.Delete(from);
            }

            return done;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            Remove(part);
            return new ParseError(path, 0, 0, $"{Path.GetFileName(to)} cannot be written ({FileWords.Of(failure)}); the session is as it was");
        }
    }

    private static void WritePacked(string from, string to)
    {
        using FileStream plain = Reading(from);
        using var file = new FileStream(to, FileMode.Create, FileAccess.Write, FileShare.Read);
        using (var packing = new BrotliStream(file, new BrotliCompressionOptions { Quality = Quality }, leaveOpen: true))
        {
            plain.CopyTo(packing);
        }

        file.Flush(flushToDisk: true);
    }

    private static void WriteUnpacked(string from, string to)
    {
        using var text = new UnpackingStream(Reading(from), JournalReader.LargestUnpacked);
        using var file = new FileStream(to, FileMode.Create, FileAccess.Write, FileShare.Read);
        text.CopyTo(file);
        file.Flush(flushToDisk: true);
        if (text.Trouble is { } trouble)
        {
            throw new InvalidDataException(trouble + "; cockpit sessions mend saves what can be read");
        }
    }

    private static bool SameText(string one, string other)
    {
        using Stream left = Text(one);
        using Stream right = Text(other);
        byte[] leftChunk = new byte[ChunkBytes];
        byte[] rightChunk = new byte[ChunkBytes];
        while (true)
        {
            int leftCount = left.ReadAtLeast(leftChunk, ChunkBytes, throwOnEndOfStream: false);
            int rightCount = right.ReadAtLeast(rightChunk, ChunkBytes, throwOnEndOfStream: false);
            if (!leftChunk.AsSpan(0, leftCount).SequenceEqual(rightChunk.AsSpan(0, rightCount)))
            {
                return false;
            }

            if (leftCount < ChunkBytes)
            {
                return left is not UnpackingStream { Trouble: not null } && right is not UnpackingStream { Trouble: not null };
            }
        }
    }

    private static Stream Text(string path)
    {
        FileStream file = Reading(path);
        string name = path.EndsWith(".part", StringComparison.Ordinal) ? path[..^".part".Length] : path;
        return SessionFolder.IsPacked(name) ? new UnpackingStream(file, JournalReader.LargestUnpacked) : file;
    }

    private static FileStream Reading(string path) => new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);

    private static void Remove(string part)
    {
        try
        {
            File.Delete(part);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            // The disk is in trouble, which is being told already; the next try writes over it.
        }
    }
}

/// <summary>What packing or unpacking wrote.</summary>
/// <param name="Path">The new file.</param>
/// <param name="FromBytes">Length of the old one.</param>
/// <param name="ToBytes">Length of the new one.</param>
public readonly record struct PackedFile(string Path, long FromBytes, long ToBytes)
{
    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Path}  {FromBytes} -> {ToBytes} bytes");
}
