using System.Buffers.Binary;
using System.Text;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;

namespace Cockpit.Tests.Recordings;

/// <summary>Recordings longer than 4 GiB, where 32 bits end in the middle of a pass: sparse files, of which only head and end take room on the disk.</summary>
public sealed class HugeRecordingTests : IDisposable
{
    // Seven minutes of 3 Msps in 16 bits: 5.04 GB.
    private const long DataBytes = 7L * 60 * 3_000_000 * 4;
    private const uint Unknown = 0xFFFFFFFF;

    private readonly string _folder = Directory.CreateTempSubdirectory("cockpit-huge-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("RF64", Unknown, DataBytes, false)]
    [InlineData("RF64", Unknown, DataBytes, true)]
    [InlineData("BW64", Unknown, DataBytes, true)]
    [InlineData("RF64", Unknown, 0L, false)]
    [InlineData("RF64", Unknown, 4096L, false)]
    [InlineData("RF64", Unknown, long.MaxValue, false)]
    [InlineData("RF64", Unknown, -1L, false)]
    [InlineData("RF64", 0, DataBytes, false)]
    [InlineData("RIFF", unchecked((uint)DataBytes), null, false)]
    [InlineData("RIFF", Unknown, null, false)]
    [InlineData("RIFF", 0, null, false)]
    public void What_stands_behind_4_GiB_is_read_whatever_the_head_says_of_its_size(string kind, uint size32, long? size64, bool chunkBehind)
    {
        string path = Make(kind, size32, size64, chunkBehind);
        Assert.True(RecordingFile.Open(path, new SampleOptions(), path).Try(out RecordingFile? recording, out ParseError? error), $"{error}");
        using (recording)
        {
            Assert.Equal((SampleFormat.Ci16Le, 3_000_000.0), (recording.Layout.Format, recording.Layout.SampleRate));
            Assert.Equal(DataBytes, recording.BytesNow);
            recording.SeekToEnd(32);
            byte[] last = new byte[64];
            Assert.Equal(32, recording.Read(last));
            Assert.Equal(Enumerable.Range(1, 32).Select(k => (byte)k), last[..32]);
            Assert.Equal(DataBytes, recording.BytesRead);
            Assert.Equal(0, recording.Read(last));
        }
    }

    [Fact]
    public void A_recording_that_grows_past_4_GiB_is_followed_over_the_edge()
    {
        string path = Make("RF64", Unknown, 0, chunkBehind: false, dataBytes: uint.MaxValue - 99L);
        Assert.True(RecordingFile.Open(path, new SampleOptions(), path).Try(out RecordingFile? recording, out ParseError? error), $"{error}");
        using (recording)
        {
            recording.SeekToEnd(0);
            using FileStream writer = new(path, FileMode.Append, FileAccess.Write, FileShare.ReadWrite);
            byte[] more = [.. Enumerable.Range(0, 4000).Select(k => (byte)(k / 4))];
            writer.Write(more);
            writer.Flush();
            byte[] read = new byte[8000];
            Assert.Equal(4000, recording.Read(read));
            Assert.Equal(more, read[..4000]);
            Assert.True(recording.BytesRead > uint.MaxValue);
        }
    }

    private string Make(string kind, uint size32, long? size64, bool chunkBehind, long dataBytes = DataBytes)
    {
        using MemoryStream head = new();
        Chunk(head, kind, Unknown, "WAVE"u8);
        if (size64 is { } size)
        {
            byte[] sizes = new byte[28];
            BinaryPrimitives.WriteInt64LittleEndian(sizes.AsSpan(8), size);
            BinaryPrimitives.WriteInt64LittleEndian(sizes.AsSpan(16), size / 4);
            Chunk(head, "ds64", 28, sizes);
        }

        byte[] format = new byte[16];
        BinaryPrimitives.WriteUInt16LittleEndian(format, 1);
        BinaryPrimitives.WriteUInt16LittleEndian(format.AsSpan(2), 2);
        BinaryPrimitives.WriteUInt32LittleEndian(format.AsSpan(4), 3_000_000);
        BinaryPrimitives.WriteUInt32LittleEndian(format.AsSpan(8), 12_000_000);
        BinaryPrimitives.WriteUInt16LittleEndian(format.AsSpan(12), 4);
        BinaryPrimitives.WriteUInt16LittleEndian(format.AsSpan(14), 16);
        Chunk(head, "fmt ", 16, format);
        Chunk(head, "data", size32, []);

        string path = Path.Combine(_folder, "pass.wav");
        using FileStream file = new(path, FileMode.Create, FileAccess.Write);
        head.WriteTo(file);
        file.SetLength(head.Length + dataBytes);
        file.Seek(head.Length + dataBytes - 32, SeekOrigin.Begin);
        file.Write([.. Enumerable.Range(1, 32).Select(k => (byte)k)]);
        if (chunkBehind)
        {
            Chunk(file, "LIST", 4, "INFO"u8);
        }

        return path;
    }

    private static void Chunk(Stream to, string name, uint size, ReadOnlySpan<byte> body)
    {
        byte[] head = new byte[8];
        Encoding.ASCII.GetBytes(name, head);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(4), size);
        to.Write(head);
        to.Write(body);
    }
}
