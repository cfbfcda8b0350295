using System.Globalization;
using Cockpit.Core.Time;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Clocks;

/// <summary>Compares this computer's clock with the times that feeds bring with their readings: satellites' time, or that of another program.</summary>
/// <param name="sink">Where the comparison goes.</param>
/// <remarks>
/// Follows the events of a session whose clock is that of this computer, at its rate; a session that starts at a chosen instant has nothing to be
/// compared. A receiver tells its time several hundred milliseconds late, and its lateness wanders, so that not much better than a second can be
/// expected (GPSD Time Service HOWTO, section 1PPS quality issues). How late the lines of a program come: common practice, no source.
/// </remarks>
public sealed class StampClock(IEventSink sink)
{
    /// <summary>How late a receiver usually tells its time.</summary>
    public static readonly TimeSpan ReceiverLateness = TimeSpan.FromSeconds(0.4);

    /// <summary>How far a clock may be off that goes by a receiver.</summary>
    public static readonly TimeSpan ReceiverDoubt = TimeSpan.FromSeconds(0.8);

    private static readonly TimeSpan ProgramDoubt = TimeSpan.FromSeconds(0.9);
    private static readonly TimeSpan WholeSecondDoubt = TimeSpan.FromSeconds(0.5);

    /// <summary>What differs by more is the time of another zone, or an old recording; of a receiver, a count of weeks that ran over.</summary>
    private static readonly TimeSpan MostOfProgram = TimeSpan.FromMinutes(5);

    private static readonly TimeSpan MostOfReceiver = TimeSpan.FromDays(400);
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Again = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan Change = TimeSpan.FromSeconds(0.5);

    private readonly Dictionary<string, Source> _sources = new(StringComparer.Ordinal);
    private TimeSpan _corrected;

    /// <summary>Takes the next event of the session; what it finds is published from inside.</summary>
    public void Follow(Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        switch (envelope.Event)
        {
            case ClockCorrected corrected:
                _corrected += corrected.Change;
                break;
            case SignalMeasured { Sample.Utc: { } stamp } measured:
                Came(measured.Feed, $"the times of {measured.Feed}", isReceiver: false, stamp, envelope);
                break;
            case PlaceFixed { Utc: { } stamp } place:
                Came(place.Feed, "the navigation satellites", isReceiver: true, stamp, envelope);
                break;
        }
    }

    private void Came(string feed, string against, bool isReceiver, DateTimeOffset stamp, Envelope envelope)
    {
        if (!_sources.TryGetValue(feed, out Source? source))
        {
            _sources.Add(feed, source = new Source(envelope.Elapsed));
        }

        source.Stamps.Came(envelope.Elapsed, envelope.Utc - _corrected, stamp);
        if (envelope.Elapsed - source.LookedAt < Look)
        {
            return;
        }

        source.LookedAt = envelope.Elapsed;
        if (source.Stamps.Difference() is { } difference && source.IsNews(difference, envelope.Elapsed))
        {
            sink.Publish(Sources.Clock, Compared(against, isReceiver, difference, source.Stamps.WholeSeconds && !isReceiver));
        }
    }

    private static ClockCompared Compared(string against, bool isReceiver, TimeSpan difference, bool coarse)
    {
        if (difference.Duration() > (isReceiver ? MostOfReceiver : MostOfProgram))
        {
            string how = string.Create(CultureInfo.InvariantCulture, $"they differ by {Words(difference.Duration())}");
            return new ClockCompared(against, null, TimeSpan.Zero, how + (isReceiver ? ": the receiver's count of weeks ran over" : ", as another time zone or an old recording does"));
        }

        return isReceiver
            ? new ClockCompared(against, difference + ReceiverLateness, ReceiverDoubt, null)
            : new ClockCompared(against, difference, ProgramDoubt + (coarse ? WholeSecondDoubt : TimeSpan.Zero), null);
    }

    private static string Words(TimeSpan span) =>
        span.TotalDays >= 2 ? string.Create(CultureInfo.InvariantCulture, $"{span.TotalDays:0} days") : string.Create(CultureInfo.InvariantCulture, $"{span.TotalMinutes:0} minutes");

    /// <summary>What is known of one feed's times.</summary>
    private sealed class Source(TimeSpan begun)
    {
        private TimeSpan? _told;
        private TimeSpan _toldAt;

        public StampedArrivals Stamps { get; } = new();

        public TimeSpan LookedAt { get; set; } = begun;

        public bool IsNews(TimeSpan difference, TimeSpan now)
        {
            bool isNews = _told is not { } told || (difference - told).Duration() > Change || now - _toldAt > Again;
            (_told, _toldAt) = isNews ? (difference, now) : (_told, _toldAt);
            return isNews;
        }
    }
}
