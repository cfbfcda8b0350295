using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Review;

namespace Cockpit.Wiring;

/// <summary>What a review needs of a session: from what was kept of it, else from its journal, and kept then.</summary>
/// <param name="Log">What is needed; null when the session was never opened.</param>
/// <param name="Notes">What is not as it should be in the journal; only an undamaged one is kept.</param>
public sealed record KeptReview(ReviewLog? Log, ImmutableArray<JournalNote> Notes)
{
    /// <summary>Half seconds from which on keeping is worth a file: two minutes.</summary>
    private const int LeastBlocks = 240;

    /// <summary>Of a session.</summary>
    /// <param name="path">Its folder, or its journal; only beside a folder's something is kept.</param>
    /// <returns>One sentence where there is no such session.</returns>
    public static Parsed<KeptReview> Of(string path)
    {
        if (ReviewLogFile.Read(path, ProgramVersion.Identity) is { } kept)
        {
            return new KeptReview(kept, []);
        }

        if (!Recording.ReadAll(path).Try(out Recording? recording, out ParseError? error))
        {
            return error;
        }

        ReviewLog? log = ReviewRecorder.LogOf(recording.Envelopes);
        if (log is { Blocks.Length: >= LeastBlocks } && recording.Notes.IsEmpty && recording.EndedInOrder)
        {
            ReviewLogFile.Write(path, ProgramVersion.Identity, log);
        }

        return new KeptReview(log, recording.Notes);
    }
}
