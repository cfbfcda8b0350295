using BenchmarkDotNet.Attributes;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Screen.Panels;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Benchmarks;

/// <summary>Making one page of the screen from a snapshot in the middle of a pass; without the terminal.</summary>
[MemoryDiagnoser]
public class PageBenchmarks
{
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 10, 0, 0, TimeSpan.Zero);

    private PageInput? _input;

    /// <summary>A minute of signal in the middle of a pass of an invented satellite.</summary>
    [GlobalSetup]
    public void Setup()
    {
        Fold fold = new();
        long sequence = 0;
        Snapshot Step(DateTimeOffset utc, SessionEvent happened) => fold.Step(new Envelope(++sequence, utc - Start, utc, "bench", happened));
        Snapshot now = Step(Start, new SessionOpened(Settings));
        DateTimeOffset from = now.Sky is { } sky ? sky.Pass.Tca.Utc : throw new InvalidOperationException("No pass.");
        for (int i = 0; i < 600; i++)
        {
            _ = Step(from.AddSeconds(i / 10.0), new SignalMeasured("signal", new SignalSample { SnrDb = 8 + Math.Sin(i / 20.0) }));
            now = Step(from.AddSeconds((i / 10.0) + 0.01), i == 300 ? new OperatorPressed(OperatorKey.Peaked) : new Ticked());
        }

        _input = new PageInput(now, null, Replay: false, Help: false, null);
    }

    /// <summary>Columns of the terminal; the rows belong to them.</summary>
    [Params(80, 120, 160)]
    public int Columns { get; set; }

    /// <summary>One page.</summary>
    [Benchmark]
    public int Compose() => _input is { } input
        ? Page.Compose(input, PageMemory.Empty, Columns, Columns switch { 80 => 24, 120 => 40, _ => 48 }).Page.Height
        : 0;

    private static SessionSettings Settings => new()
    {
        ProgramVersion = "bench",
        Kind = SessionKind.Live,
        StationName = "LOWLAND",
        Station = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520),
        SatelliteName = "BRACKWING 5",
        Elements = ElementSets.Read("test", new StringReader("""
            BRACKWING 5
            1 99129U 26014A   26329.02321816  .00000043  00000-0  10514-3 0  7313
            2 99129  98.8186 153.7539 0005269 308.7134  69.4194 14.12592518451565
            """)).Sets[0],
        Feeds = [FeedSettings.Signal],
    };
}
