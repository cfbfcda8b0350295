using System.Buffers;
using Cockpit.Core.Formats;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Writes a whole journal from events that are at hand.</summary>
public static class JournalText
{
    private const int ChunkBytes = 64 * 1024;

    /// <summary>Writes it beside its place first, reads it back, and only then puts it there; the events are numbered anew from 1.</summary>
    /// <param name="path">The journal; its folder is there.</param>
    /// <param name="header">Its first line.</param>
    /// <param name="envelopes">Its events in their order.</param>
    /// <exception cref="IOException">It could not be written, or does not read back.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static void Write(string path, JournalHeader header, IReadOnlyCollection<Envelope> envelopes)
    {
        ArgumentNullException.ThrowIfNull(header);
        ArgumentNullException.ThrowIfNull(envelopes);
        string part = path + ".part";
        try
        {
            using (var file = new FileStream(part, FileMode.Create, FileAccess.Write, FileShare.Read))
            {
                Write(file, header, envelopes);
                file.Flush(flushToDisk: true);
            }

            if (!Recording.ReadAll(part).Try(out Recording? back, out ParseError? error) || !back.IsUndamaged || back.Envelopes.Length != envelopes.Count)
            {
                throw new IOException(error?.Message ?? "what was written does not read back");
            }

            File.Move(part, path, overwrite: true);
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }

    /// <summary>Writes it to a stream.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="header">Its first line.</param>
    /// <param name="envelopes">Its events in their order; they are numbered anew from 1.</param>
    public static void Write(Stream output, JournalHeader header, IEnumerable<Envelope> envelopes)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(header);
        ArgumentNullException.ThrowIfNull(envelopes);
        ArrayBufferWriter<byte> text = new(2 * ChunkBytes);
        header.Write(text);
        long number = 0;
        foreach (Envelope envelope in envelopes)
        {
            JournalLine.Write(text, envelope with { Sequence = ++number });
            if (text.WrittenCount > ChunkBytes)
            {
                output.Write(text.WrittenSpan);
                text.ResetWrittenCount();
            }
        }

        output.Write(text.WrittenSpan);
    }
}
