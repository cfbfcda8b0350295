using System.Buffers;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Journal;

/// <summary>Journals in memory.</summary>
internal static class Journals
{
    internal static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    /// <summary>The lines of a journal with ticks: the header, then events 1 to the count.</summary>
    internal static List<string> Lines(int count)
    {
        ArrayBufferWriter<byte> output = new();
        new JournalHeader(JournalHeader.CurrentFormat, "0.1.0", Start).Write(output);
        for (int number = 1; number <= count; number++)
        {
            JournalLine.Write(output, Tick(number));
        }

        return [.. Encoding.UTF8.GetString(output.WrittenSpan).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line + "\n")];
    }

    internal static Envelope Tick(int number) =>
        new(number, TimeSpan.FromMilliseconds(100 * number), Start + TimeSpan.FromMilliseconds(100 * number), "clock", new Ticked());

    internal static Recording Read(IEnumerable<string> lines) => Read(Encoding.UTF8.GetBytes(string.Concat(lines)));

    internal static Recording Read(byte[] bytes)
    {
        Parsed<JournalReader> opened = JournalReader.Open(new MemoryStream(bytes), "test");
        Assert.True(opened.Try(out JournalReader? reader, out ParseError? error), error?.ToString());
        using (reader)
        {
            Parsed<Recording> read = Recording.ReadAll(reader, "test");
            Assert.True(read.Try(out Recording? recording, out error), error?.ToString());
            return recording;
        }
    }

    /// <summary>Why these bytes are no session with events; null when they are.</summary>
    internal static string? Problem(byte[] bytes)
    {
        if (!JournalReader.Open(new MemoryStream(bytes), "test").Try(out JournalReader? reader, out ParseError? error))
        {
            return error.ToString();
        }

        using (reader)
        {
            return Recording.ReadAll(reader, "test").Error?.ToString();
        }
    }

    internal static string? ErrorOf(string text)
    {
        Parsed<JournalReader> opened = JournalReader.Open(new MemoryStream(Encoding.UTF8.GetBytes(text)), "here");
        return opened.Error?.ToString();
    }

    /// <summary>A line with the checksum that belongs to its text.</summary>
    internal static string Checked(string line)
    {
        string body = line[..line.LastIndexOf(",\"crc\":", StringComparison.Ordinal)];
        return $"{body},\"crc\":\"{Crc32.Of(Encoding.UTF8.GetBytes(body)):x8}\"}}\n";
    }
}
