using System.Collections.Immutable;
using Cockpit.Core.Sensing;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;

namespace Cockpit.Session.Events;

/// <summary>A feed is connected, or its listener stands.</summary>
/// <param name="Feed">Name of the feed, as in the settings.</param>
/// <param name="Where">Its address, for people.</param>
public sealed record FeedConnected(string Feed, string Where) : SessionEvent;

/// <summary>A feed was lost or could not be reached; it is tried again.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Reason">What happened, one sentence.</param>
public sealed record FeedLost(string Feed, string Reason) : SessionEvent;

/// <summary>A feed sent something that is not in its grammar; it was dropped and counted.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Reason">What was wrong, with column; one sentence.</param>
/// <param name="Total">Bad records so far on this feed, this one included.</param>
/// <param name="InARow">Bad records in a row, this one included.</param>
public sealed record FeedLineRejected(string Feed, string Reason, long Total, int InARow) : SessionEvent;

/// <summary>A feed brought a good reading, of whatever kind: the feed is well.</summary>
public abstract record FeedReading : SessionEvent
{
    /// <summary>Name of the feed, as in the settings.</summary>
    public abstract string Feed { get; init; }

    /// <summary>This reading with what an earlier one of its kind holds and it does not, where both came too fast for each to be told.</summary>
    /// <param name="earlier">From the same feed.</param>
    public virtual FeedReading Over(FeedReading earlier) => this;
}

/// <summary>A measurement of the signal arrived.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Sample">What was measured.</param>
public sealed record SignalMeasured(string Feed, SignalSample Sample) : FeedReading
{
    /// <inheritdoc/>
    public override FeedReading Over(FeedReading earlier) => earlier is SignalMeasured before ? this with { Sample = Sample.Over(before.Sample) } : this;
}

/// <summary>A receiver of navigation satellites told its place, and when that was.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Latitude">North positive, WGS 84.</param>
/// <param name="Longitude">East positive.</param>
/// <param name="HeightMetres">Above the ellipsoid; null where it is not told.</param>
/// <param name="DoubtMetres">How far the place may be off, by the receiver's own word; null where it is not told.</param>
/// <param name="Utc">The instant by the satellites; null where the receiver does not know the day yet.</param>
public sealed record PlaceFixed(string Feed, Angle Latitude, Angle Longitude, double? HeightMetres, double? DoubtMetres, DateTimeOffset? Utc) : FeedReading;

/// <summary>A sensor on the dish told where it points.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Sample">What it said.</param>
/// <param name="Age">How old that was when it was sent, real time; null where that is not told.</param>
public sealed record PointingMeasured(string Feed, SensorSample Sample, TimeSpan? Age = null) : FeedReading
{
    /// <inheritdoc/>
    public override FeedReading Over(FeedReading earlier) => earlier is PointingMeasured before ? this with { Sample = Sample.Over(before.Sample) } : this;
}

/// <summary>A receiver told where it is tuned to, or was tuned by us.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Frequency">Where to.</param>
public sealed record ReceiverTuned(string Feed, Frequency Frequency) : FeedReading;

/// <summary>Something about what a feed brings wants attention, though it brings good readings; or no longer.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Remark">What it is and what to do, one sentence; null = nothing any more.</param>
public sealed record FeedRemarked(string Feed, string? Remark) : SessionEvent;

/// <summary>Something about a feed is worth a passing note: how its lines are read.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Note">It, to be read behind the name: <c>reads 'SNR' as snr</c>.</param>
public sealed record FeedNoted(string Feed, string Note) : SessionEvent;

/// <summary>How the recording does that a feed reads while it is being written.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="BytesPerSecond">How fast it grew in the last seconds; 0 while it stands.</param>
/// <param name="StoodStill">How long it has not grown, real time.</param>
/// <param name="FreeBytes">What is free on its disk; null where that cannot be asked.</param>
public sealed record RecordingWatched(string Feed, long Bytes, double BytesPerSecond, TimeSpan StoodStill, long? FreeBytes) : SessionEvent;

/// <summary>The picture grew: lines of the split-phase service as they come, thinned to a quick look.</summary>
/// <param name="Feed">Name of the feed.</param>
/// <param name="FirstLine">Number of the first of these lines, from 1.</param>
/// <param name="Rows">One a line, as <see cref="Core.Signal.GreyRow"/> writes it; empty = lost.</param>
public sealed record PictureGrew(string Feed, long FirstLine, ImmutableArray<string> Rows) : SessionEvent;

/// <summary>The sound device was opened, or the program fell back to another.</summary>
/// <param name="Device">"ALSA default", "WASAPI", "bell", "silent".</param>
/// <param name="Trouble">Why it is not the wanted one, or null when all is well.</param>
public sealed record SpeakerChanged(string Device, string? Trouble) : SessionEvent;

/// <summary>The journal could not be written any more, or works again.</summary>
/// <param name="Trouble">What happened, one sentence; null when it works again.</param>
public sealed record JournalChanged(string? Trouble) : SessionEvent;

/// <summary>A part of the program failed for the first time; it is tried again, and the rest goes on.</summary>
/// <param name="Part">Which part.</param>
/// <param name="Trouble">What happened, one sentence.</param>
public sealed record PartFailed(string Part, string Trouble) : SessionEvent;

/// <summary>The program has looked at the disk that the session is written to.</summary>
/// <param name="Where">The folder, for people.</param>
/// <param name="FreeBytes">What is free there; null where it cannot be written to.</param>
/// <param name="NeededBytes">What journal and recording of the pass will take.</param>
public sealed record DiskMeasured(string Where, long? FreeBytes, long NeededBytes) : SessionEvent
{
    /// <summary>A recording ends by itself while this much is left.</summary>
    public const long LeastFree = 512L << 20;
}
