using BenchmarkDotNet.Attributes;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;
using Cockpit.Devices.Journal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Benchmarks;

/// <summary>How fast signal lines are read, and events written to a journal and read back.</summary>
[MemoryDiagnoser]
public class FeedBenchmarks
{
    private const int Count = 10_000;
    private readonly byte[] _pairs = "snr=7.4 cn0=68.1 lock=1 frames=120"u8.ToArray();
    private readonly byte[] _json = """{"snr":7.4,"cn0":68.1,"lock":true,"frames":120}"""u8.ToArray();
    private readonly Envelope[] _envelopes = [.. Enumerable.Range(1, Count).Select(Measurement)];
    private readonly byte[] _journal;

    /// <summary>Writes the journal that is read.</summary>
    public FeedBenchmarks() => _journal = Write().ToArray();

    /// <summary>Lines of pairs.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public int Pairs() => Read(_pairs);

    /// <summary>Lines of JSON.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public int Json() => Read(_json);

    /// <summary>Events to a journal in memory.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public long JournalWrite() => Write().Length;

    /// <summary>Events from a journal in memory.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public int JournalRead()
    {
        using JournalReader? reader = JournalReader.Open(new MemoryStream(_journal), "memory").Value;
        return reader is null ? 0 : Recording.ReadAll(reader, "memory").Value?.Envelopes.Length ?? 0;
    }

    internal static IEnumerable<(string Name, int Operations, Action Work)> Quick()
    {
        var b = new FeedBenchmarks();
        yield return ("signal lines read, pairs", Count, () => b.Pairs());
        yield return ("signal lines read, JSON", Count, () => b.Json());
        yield return ("events written to a journal", Count, () => b.JournalWrite());
        yield return ("events read from a journal", Count, () => b.JournalRead());
    }

    private static int Read(byte[] line)
    {
        int good = 0;
        for (int i = 0; i < Count; i++)
        {
            good += SignalLine.Read(line, "signal").Sample is null ? 0 : 1;
        }

        return good;
    }

    private MemoryStream Write()
    {
        MemoryFile file = new();
        using JournalPump pump = new(file, new NoSink(), TimeProvider.System, "0.1.0");
        pump.Open();
        foreach (Envelope envelope in _envelopes)
        {
            pump.Add(envelope);
        }

        pump.Step(finish: true);
        return file.Bytes;
    }

    private static Envelope Measurement(int number)
    {
        TimeSpan elapsed = TimeSpan.FromMilliseconds(100 * number);
        SignalSample sample = new() { SnrDb = 7.4, Cn0DbHz = 68.1, Locked = true, Frames = number };
        return new Envelope(number, elapsed, new DateTimeOffset(2026, 11, 25, 10, 15, 0, TimeSpan.Zero) + elapsed, Sources.Signal, new SignalMeasured(Sources.Signal, sample));
    }

    private sealed class MemoryFile : IJournalFile
    {
        private bool _open;

        public MemoryStream Bytes { get; } = new();

        public string Path => "memory";

        public JournalPlace Look() => new(_open ? JournalPlaceKind.Ours : JournalPlaceKind.Nothing, Bytes.Length);

        public void Open() => _open = true;

        public string MoveAside() => throw new InvalidOperationException("nothing else is in memory");

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            Bytes.Position = offset;
            Bytes.Write(bytes);
        }

        public void Sync()
        {
            // Memory is as safe as it will be.
        }

        public void Close()
        {
            // The bytes stay for the reader.
        }

        public void Dispose() => Close();
    }

    private sealed class NoSink : IEventSink
    {
        public void Publish(string source, SessionEvent sessionEvent) => throw new InvalidOperationException("nothing should go wrong in memory");
    }
}
