using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sensing;
using Cockpit.Core.Signal;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Journal;

/// <summary>One event of each type; its line in a journal is checked in as tests/data/events/NAME.json.</summary>
internal static class EventSamples
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    internal static IReadOnlyList<SessionEvent> All { get; } =
    [
        new SessionOpened(new SessionSettings
        {
            ProgramVersion = "0.1.0",
            Kind = SessionKind.Live,
            StationName = "Oakridge",
            Station = new Site(Angle.FromDegrees(51.5), Angle.FromDegrees(-0.125), 42.0),
            SatelliteName = "PETREL 2",
            Elements = new ElementSet
            {
                Name = "PETREL 2",
                CatalogNumber = 999_999_102,
                Classification = 'C',
                InternationalDesignator = "2026-910A",
                Epoch = new JulianDate(2461004.5, 1.0 / 3.0),
                MeanMotionRevPerDay = 14.19552,
                MeanMotionDotRevPerDay2 = 6.1e-7,
                MeanMotionDdotRevPerDay3 = -1e-12,
                BStar = 4.1e-5,
                Inclination = Angle.FromDegrees(98.742),
                RightAscension = Angle.FromDegrees(41.0),
                Eccentricity = 0.0010213,
                ArgumentOfPerigee = Angle.FromDegrees(84.31),
                MeanAnomaly = Angle.FromDegrees(275.93),
                EphemerisType = 2,
                ElementSetNumber = 999,
                RevolutionNumber = 4521,
            },
            DishDiameterMetres = 0.9,
            Downlink = Frequency.FromMegahertz(1702.5),
            MinimumElevation = Angle.FromDegrees(3),
            AllowedLoss = new Decibels(0.75),
            CueLead = TimeSpan.FromSeconds(1.2),
            Heartbeat = false,
            Speed = 10,
            Seed = ulong.MaxValue,
            Feeds = [FeedSettings.Signal],
        }),
        new SessionClosed("the operator ended it"),
        new Ticked(),
        new ClockCorrected(TimeSpan.FromTicks(-12_345_678), "set by the position receiver"),
        new OperatorPressed(OperatorKey.NotMoved),
        new TruthRecorded(Angle.FromDegrees(187.3), Angle.FromDegrees(41.9), new Decibels(-3.1)),
        new FeedConnected("signal", "tcp 127.0.0.1:5010"),
        new FeedLost("signal", "the sender closed the connection; it is tried again"),
        new FeedLineRejected("signal", "column 4: decimal comma; write numbers with a point", 12, 3),
        new SignalMeasured("signal", new SignalSample
        {
            Utc = Start.AddTicks(1),
            LevelDb = -61.2,
            SnrDb = 7.4,
            Cn0DbHz = 68.1,
            OffsetHz = -1250.5,
            Locked = true,
            Frames = 120,
            BitErrorRatio = 1e-3,
            Clipped = 0.02,
        }),
        new SpeakerChanged("bell", "no sound device answers"),
        new JournalChanged("No space left on device"),
        new PartFailed("voice", "a part failed"),
        new FeedRemarked("signal", "the receiver is overloaded: turn its gain down"),
        new RecordingWatched("signal", 123_456_789, 9_600_000.5, TimeSpan.FromMilliseconds(1250), 45_000_000_000),
        new PictureGrew("signal", 119, ["", string.Concat(Enumerable.Repeat("ABCDWXYZabcdwxyz0123456789+/+/ZY", 4))]),
        new ClockCompared("192.0.2.1", TimeSpan.FromMilliseconds(2345), TimeSpan.FromMilliseconds(12), null),
        new FeedNoted("signal", "reads 'SNR' as snr"),
        new ReceiverTuned("tune", new Frequency(1_702_512_345)),
        new PlaceFixed("place", Angle.FromDegrees(47.80123), Angle.FromDegrees(11.20345), 521.5, 4.2, Start),
        new DiskMeasured("sessions", 45_000_000_000, 4_300_000),
        new HeadTurned(Angle.FromDegrees(-5), Angle.FromDegrees(1)),
        new PointingMeasured("pointing", new SensorSample(Angle.FromDegrees(214.5), Angle.FromDegrees(32), null, SensorNorth.Magnetic), TimeSpan.FromMilliseconds(40)),
        new DirectionKnown(Angle.FromDegrees(212.3), Angle.FromDegrees(18.4), Angle.FromDegrees(1.5), "the sun"),
    ];

    /// <summary>The sample in its place: the sequence is its number in the list.</summary>
    internal static Envelope Enveloped(SessionEvent sample)
    {
        int number = 1 + All.ToList().IndexOf(sample);
        TimeSpan elapsed = TimeSpan.FromTicks(number * 1_000_001L);
        return new Envelope(number, elapsed, Start + elapsed, "program", sample);
    }
}
