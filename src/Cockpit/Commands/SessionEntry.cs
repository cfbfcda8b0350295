using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>A session in one row: what lists and trends need of it.</summary>
/// <param name="Name">Name of its folder.</param>
/// <param name="Bytes">Length of its journal then.</param>
/// <param name="WrittenUtc">When its journal was written last.</param>
public sealed record SessionEntry(string Name, long Bytes, DateTime WrittenUtc)
{
    /// <summary>Its first event, UTC; null when nothing could be read.</summary>
    public DateTimeOffset? FromUtc { get; init; }

    /// <summary>Name of the satellite; empty when nothing could be read.</summary>
    public string Satellite { get; init; } = "";

    /// <summary>"live", "demo".</summary>
    public string Kind { get; init; } = "";

    /// <summary>Highest elevation of the pass, degrees; null when the session does not reach into one.</summary>
    public double? TopDegrees { get; init; }

    /// <summary>Lines sent while it ran.</summary>
    public int Sent { get; init; }

    /// <summary>Lines received.</summary>
    public int Received { get; init; }

    /// <summary>Lines lost by cause, most first.</summary>
    public ImmutableArray<CauseLines> Causes { get; init; } = [];

    /// <summary>From the first event to the last, seconds.</summary>
    public double LengthSeconds { get; init; }

    /// <summary>What is wrong with the journal, one sentence; null when all of it is good.</summary>
    public string? Damage { get; init; }

    /// <summary>Whether the program came to its end in order.</summary>
    public bool Closed { get; init; }

    /// <summary>Median reaction, seconds.</summary>
    public double? ReactionSeconds { get; init; }

    /// <summary>How much the reactions scatter, seconds.</summary>
    public double ReactionSd { get; init; }

    /// <summary>How many reactions that rests on.</summary>
    public int Reactions { get; init; }

    /// <summary>Size of the moves against what was called.</summary>
    public double? Amount { get; init; }

    /// <summary>Its error.</summary>
    public double AmountSd { get; init; }

    /// <summary>How many moves that rests on.</summary>
    public int Amounts { get; init; }

    /// <summary>"damaged", "cut off" when the program did not come to its end in order, else "whole".</summary>
    [JsonIgnore]
    public string State => Damage is not null ? "damaged" : Closed ? "whole" : "cut off";

    /// <summary>Received of sent, 0..1; null where nothing was sent.</summary>
    [JsonIgnore]
    public double? Share => Sent > 0 ? (double)Received / Sent : null;

    /// <summary>Whether a mended session stands beside this damaged one and counts in its place.</summary>
    [JsonIgnore]
    public bool IsReplaced { get; init; }

    /// <summary>The pass as the comparison of passes needs it; null when the session does not reach into one, or counts as a mended one.</summary>
    public ProgressPass? Pass() => this is { IsReplaced: false, FromUtc: { } from, TopDegrees: { } top }
        ? new ProgressPass(
            from,
            Satellite,
            Kind,
            top,
            Sent,
            Received,
            ReactionSeconds is { } reaction ? new Spread(reaction, ReactionSd, Reactions) : null,
            Amount is { } amount ? new Spread(amount, AmountSd, Amounts) : null)
        : null;

    /// <summary>Reads and reviews a session.</summary>
    /// <param name="folder">Its folder.</param>
    public static SessionEntry Of(string folder)
    {
        var journal = new FileInfo(SessionFolder.JournalIn(folder) ?? Path.Combine(folder, SessionFolder.JournalName));
        var entry = new SessionEntry(Path.GetFileName(folder), journal.Length, journal.LastWriteTimeUtc);
        if (!Recording.ReadAll(folder).Try(out Recording? recording, out ParseError? error))
        {
            return entry with { Damage = error.Message };
        }

        Envelope first = recording.Envelopes[0];
        SessionSettings? settings = (first.Event as SessionOpened)?.Settings;
        entry = entry with
        {
            FromUtc = first.Utc,
            Satellite = settings?.SatelliteName ?? "",
            Kind = settings?.Kind.ToString().ToLowerInvariant() ?? "",
            LengthSeconds = (recording.Envelopes[^1].Elapsed - first.Elapsed).TotalSeconds,
            Damage = recording.IsUndamaged ? null : recording.Notes.First(note => note.Kind != JournalNoteKind.UnknownType).ToString(),
            Closed = recording.EndedInOrder,
        };
        return ReviewRecorder.Of(recording.Envelopes) is { } review ? entry.With(review) : entry;
    }

    private SessionEntry With(SessionReview review) => this with
    {
        TopDegrees = review.HighestElevation.Degrees,
        Sent = review.Lines.Sent,
        Received = review.Lines.Received,
        Causes =
        [
            .. review.Gaps.GroupBy(g => g.Cause).Select(g => new CauseLines(CauseWords.NameOf(g.Key), g.Sum(gap => gap.Lines))).OrderByDescending(c => c.Lines),
        ],
        ReactionSeconds = review.Hand.ReactionSeconds?.Value,
        ReactionSd = review.Hand.ReactionSeconds?.Sd ?? 0.0,
        Reactions = review.Hand.ReactionSeconds?.Count ?? 0,
        Amount = review.Hand.Amount?.Value,
        AmountSd = review.Hand.Amount?.Sd ?? 0.0,
        Amounts = review.Hand.Amount?.Count ?? 0,
    };
}

/// <summary>Lines lost by one cause.</summary>
/// <param name="Cause">Its name.</param>
/// <param name="Lines">How many.</param>
public readonly record struct CauseLines(string Cause, int Lines);
