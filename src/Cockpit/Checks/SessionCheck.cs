using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Checks;

/// <summary>A session read whole and folded: what it holds, what is wrong with it, the fingerprint of its snapshots.</summary>
/// <param name="Notes">What is not as it should be, a sentence each.</param>
/// <param name="Report">What it holds, a line each.</param>
/// <param name="IsUndamaged">Whether nothing is damaged, missing or wild, and every event could be folded.</param>
internal sealed record SessionCheck(ImmutableArray<string> Notes, ImmutableArray<string> Report, bool IsUndamaged)
{
    private const int MostFailures = 20;

    /// <summary>Checks a session.</summary>
    /// <param name="path">Folder of the session, or its journal.</param>
    /// <returns>The check, or one sentence why there is none.</returns>
    public static Parsed<SessionCheck> Of(string path)
    {
        if (!Recording.ReadAll(path).Try(out Recording? recording, out ParseError? error))
        {
            return error;
        }

        SnapshotDigest digest = new();
        ImmutableArray<string> failures = Folded(recording, digest);
        return new SessionCheck(
            [.. recording.Notes.Select(note => note.ToString()), .. failures],
            Lines(recording, digest),
            recording.IsUndamaged && failures.IsEmpty);
    }

    private static ImmutableArray<string> Folded(Recording recording, SnapshotDigest digest)
    {
        Fold fold = new();
        ImmutableArray<string>.Builder failures = ImmutableArray.CreateBuilder<string>();
        foreach (Envelope envelope in recording.Envelopes)
        {
            try
            {
                digest.Add(fold.Step(envelope));
            }
            catch (Exception failure) when (failure is ArgumentException or ArithmeticException or InvalidOperationException or IndexOutOfRangeException or NotSupportedException)
            {
                if (failures.Count < MostFailures)
                {
                    failures.Add(string.Create(CultureInfo.InvariantCulture, $"event {envelope.Sequence}: the computation failed ({failure.Message})"));
                }
            }
        }

        return failures.ToImmutable();
    }

    private static ImmutableArray<string> Lines(Recording recording, SnapshotDigest digest)
    {
        Envelope first = recording.Envelopes[0];
        Envelope last = recording.Envelopes[^1];
        string satellite = recording.Envelopes.Select(envelope => envelope.Event).OfType<SessionOpened>().FirstOrDefault()?.Settings.SatelliteName ?? "unknown";
        string end = recording.EndedInOrder ? "closed cleanly" : "not closed: the program or the machine stopped";
        return
        [
            $"satellite  {satellite}",
            string.Create(CultureInfo.InvariantCulture, $"from       {first.Utc:yyyy-MM-dd'T'HH:mm:ss.fff'Z'}"),
            string.Create(CultureInfo.InvariantCulture, $"to         {last.Utc:yyyy-MM-dd'T'HH:mm:ss.fff'Z'}"),
            string.Create(CultureInfo.InvariantCulture, $"events     {recording.Envelopes.Length}, last number {last.Sequence}"),
            $"end        {end}",
            string.Create(CultureInfo.InvariantCulture, $"digest {digest.Current()} of {digest.Count} snapshots"),
        ];
    }
}
