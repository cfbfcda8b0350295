using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Phone;
using Cockpit.Devices.Recordings;
using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Wiring;

/// <summary>The feeds of one session: each is opened when it is added, before the session begins; all are started when the bus is there.</summary>
public sealed class LiveFeeds : IAsyncDisposable
{
    private readonly List<IFeed> _feeds = [];
    private readonly List<IFeed> _ended = [];

    /// <summary>The feeds as the settings of the session hold them, in the order added.</summary>
    public ImmutableArray<FeedSettings> Settings { get; private set; } = [];

    /// <summary>What tunes the receiver; null where nobody asked for it.</summary>
    public RigTuner? Tuner { get; private set; }

    /// <summary>The phone on the dish; null where nobody asked for it.</summary>
    public PhoneFeed? Phone { get; private set; }

    /// <summary>Where to say what is to be noted in the recording of the samples; null where none are kept.</summary>
    public RecordingMarks? Marks { get; private set; }

    /// <summary>Opens a feed; from here on it is owned, whatever the outcome.</summary>
    /// <param name="feed">Not yet open; its name is not taken by another.</param>
    /// <param name="role">What it is for.</param>
    /// <param name="source">What its address belongs to, for the error: an option.</param>
    /// <returns>Why it can never work, one sentence: a port is in use, a file is a folder; null when all is well.</returns>
    public ParseError? Add(IFeed feed, FeedRole role, string source)
    {
        _feeds.Add(feed);
        Tuner = feed as RigTuner ?? Tuner;
        Phone = feed as PhoneFeed ?? Phone;
        Marks = (feed as SampleFeed)?.Marks ?? Marks;
        if (Settings.Any(other => string.Equals(other.Name, feed.Name, StringComparison.Ordinal)))
        {
            return new ParseError(source, 0, 0, $"there is already a feed {Quoted.Of(feed.Name)}; give each its own name");
        }

        Settings = Settings.Add(new FeedSettings(feed.Name, role));
        try
        {
            feed.Open();
            return null;
        }
        catch (PortException refusal)
        {
            return new ParseError(source, 0, 0, refusal.Message);
        }
    }

    /// <summary>Starts all of them.</summary>
    /// <param name="sink">Where their events go.</param>
    /// <param name="time">What waiting goes by.</param>
    public void Start(IEventSink sink, TimeProvider time) => _feeds.ForEach(feed => feed.Start(sink, time));

    /// <summary>Keeps the picture that a feed of samples has seen; called when the feeds have ended.</summary>
    /// <param name="folder">Folder of the session.</param>
    /// <returns>One sentence where it could not be kept; null when all is well, or where there is no picture.</returns>
    public string? KeepPicture(string folder)
    {
        if (_ended.OfType<SampleFeed>().Select(feed => feed.Picture).FirstOrDefault(picture => picture is not null) is not { } picture)
        {
            return null;
        }

        string path = Path.Combine(folder, "picture.png");
        try
        {
            QuickLookFile.Write(path, picture);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"{path}: {FileWords.Of(e)}; the picture is not kept";
        }
    }

    /// <summary>What became of the samples that came, one line for people; null where none did. Called when the feeds have ended.</summary>
    public string? SampleCounts() => _ended.OfType<SampleFeed>().Select(feed => feed.Samples).FirstOrDefault() is { Measured: > 0 } samples
        ? string.Create(CultureInfo.InvariantCulture, $"samples            {samples.Measured} measured, {samples.LeftOut} left out")
        : null;

    /// <summary>Ends all of them, started or not.</summary>
    public async ValueTask DisposeAsync()
    {
        IFeed[] ending = [.. _feeds];
        _ended.AddRange(ending);
        _feeds.Clear();
        foreach (IFeed feed in ending)
        {
            await feed.DisposeAsync();
        }
    }
}
