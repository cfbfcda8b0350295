using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;

namespace Cockpit.Tests.Recordings;

public sealed class SampleRingTests
{
    private readonly List<string> _said = [];

    [Fact]
    public void Bytes_come_out_as_they_went_in_and_only_whole_samples()
    {
        using SampleRing ring = new(1 << 16, 4, 1, waits: false, new Watcher(_said));
        IPortListener port = ring;
        port.Connected("there");
        port.Received([1, 2, 3, 4, 5]);
        byte[] buffer = new byte[100];

        Assert.Equal(4, ring.Take(buffer, out long missing));
        Assert.Equal(0, missing);
        Assert.Equal([1, 2, 3, 4], buffer[..4]);
        port.Received([6, 7, 8]);
        Assert.Equal(4, ring.Take(buffer, out _));
        Assert.Equal([5, 6, 7, 8], buffer[..4]);
    }

    [Fact]
    public void Who_falls_behind_loses_the_oldest_and_counts_it()
    {
        using SampleRing ring = new(1 << 16, 4, 1, waits: false, new Watcher(_said));
        IPortListener port = ring;
        port.Connected("there");
        byte[] sent = [.. Enumerable.Range(0, 5 << 14).SelectMany(BitConverter.GetBytes)];
        foreach (byte[] piece in sent.Chunk(1001))
        {
            port.Received(piece);
        }

        byte[] buffer = new byte[sent.Length];
        int count = ring.Take(buffer, out long missing);
        Assert.Equal(5L << 14, missing + (count / 4));
        Assert.Equal((int)missing, BitConverter.ToInt32(buffer));
        Assert.Equal((5 << 14) - 1, BitConverter.ToInt32(buffer, count - 4));
    }

    [Fact]
    public void A_new_connection_begins_with_a_whole_sample()
    {
        using SampleRing ring = new(1 << 16, 4, 1, waits: false, new Watcher(_said));
        IPortListener port = ring;
        port.Connected("there");
        port.Received([1, 2, 3, 4, 5, 6]);
        port.Lost("it closed");
        Assert.True(ring.SenderGone);
        port.Connected("there");
        port.Received([7, 8, 9, 10]);
        byte[] buffer = new byte[100];

        Assert.Equal(8, ring.Take(buffer, out long missing));
        Assert.Equal(-1, missing);
        Assert.Equal([1, 2, 3, 4, 7, 8, 9, 10], buffer[..8]);
        Assert.Equal(["there is connected", "it closed", "there is connected"], _said);
    }

    // Half a sample at the end of a datagram: the next one begins with a whole sample all the same, and one is counted as lost.
    [Fact]
    public void A_datagram_that_is_cut_inside_a_sample_does_not_exchange_I_and_Q_afterwards()
    {
        using SampleRing ring = new(1 << 16, 4, 1, waits: false, new Watcher(_said));
        IPortListener port = ring;
        port.Connected("there");
        port.Received([1, 2, 3, 4, 5, 6], wholeRecords: true);
        port.Received([7, 8, 9, 10], wholeRecords: true);
        byte[] buffer = new byte[100];
        Assert.Equal(8, ring.Take(buffer, out long missing));
        Assert.Equal(1, missing);
        Assert.Equal([1, 2, 3, 4, 7, 8, 9, 10], buffer[..8]);
    }

    private sealed class Watcher(List<string> said) : ISourceWatcher
    {
        public void Comes(string where) => said.Add(where + " is connected");

        public void Gone(string reason) => said.Add(reason);

        public void Grows(in GrowthReport report) => said.Add("grows");
    }
}
