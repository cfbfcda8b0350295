using Cockpit.Core.Formats;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>What one line of a feed says: a reading, a mistake, or nothing (a comment, an empty line).</summary>
/// <param name="Reading">The reading; null when there is none.</param>
/// <param name="Error">The mistake; null when there is none.</param>
/// <param name="Told">How lines are read from this one on, for people; null when nothing new was settled by it.</param>
/// <param name="Pressed">A key of the operator that came with it, as from a remote button; null when none did.</param>
public readonly record struct LineReading(FeedReading? Reading, ParseError? Error, string? Told = null, OperatorKey? Pressed = null);

/// <summary>How the lines of a feed are read: the reader of Core/Formats, and the event that its value becomes.</summary>
/// <remarks>Pure: the same lines give the same readings; a grammar belongs to one feed and may remember what came before.</remarks>
public interface ILineGrammar
{
    /// <summary>Longest line that is read, bytes without its end; longer ones are dropped and counted.</summary>
    int LongestLine { get; }

    /// <summary>Reads a line; never throws.</summary>
    /// <param name="line">Without its end, at most <see cref="LongestLine"/> bytes.</param>
    /// <param name="feed">Name of the feed, for the event and the error.</param>
    LineReading Read(ReadOnlySpan<byte> line, string feed);

    /// <summary>What bytes look like that make no lines, and what to do; null when nothing is known.</summary>
    /// <param name="bytes">As they came.</param>
    string? Suspicion(ReadOnlySpan<byte> bytes) => null;
}
