using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Cockpit.Devices.Journal;
using Cockpit.Reports;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Commands;

/// <summary>The hand as the last passes of a folder tell it, kept in a small file beside them; it is made again where it is missing or old, and never needed.</summary>
public static class HandFile
{
    /// <summary>Name of the file in the folder of the sessions; it may be deleted at any time.</summary>
    public const string FileName = "hand.json";

    private const int Version = 1;
    private const int LongestFile = 1024 * 1024;
    private const int MostFolders = 40;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(4);

    /// <summary>The hand by the latest sessions in which a person steered.</summary>
    /// <param name="root">Folder of all sessions.</param>
    /// <param name="time">So that a start is not held up: what cannot be reviewed in some seconds is left for the next time.</param>
    /// <returns>Nothing known where there is nothing to learn from, whatever is wrong with the files.</returns>
    public static LearntHand Read(string root, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(time);
        try
        {
            if (!Directory.Exists(root))
            {
                return LearntHand.Unknown;
            }

            Dictionary<string, HandRow> kept = Kept(Path.Combine(root, FileName));
            HandRow[] rows = [.. Rows(root, kept, time)];
            HandRow[] steered = [.. rows.Where(r => r.Steered).Take(LearntHand.MostPasses)];
            var learnt = LearntHand.Of([.. steered.Select(r => r.Pass())]);
            if (rows.Any(r => !kept.TryGetValue(r.Session, out HandRow? old) || !ReferenceEquals(old, r)))
            {
                // It costs only the time of the next start when it cannot be kept.
                _ = WholeFile.Write(Path.Combine(root, FileName), Text(learnt, rows), "what is known of the hand", "--sessions");
            }

            return learnt;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return LearntHand.Unknown;
        }
    }

    // Latest first; a folder's name begins with its date.
    private static IEnumerable<HandRow> Rows(string root, Dictionary<string, HandRow> kept, TimeProvider time)
    {
        long begun = time.GetTimestamp();
        int steered = 0;
        foreach (string folder in Directory.EnumerateDirectories(root).OrderByDescending(Path.GetFileName, StringComparer.Ordinal).Take(MostFolders))
        {
            if (steered == LearntHand.MostPasses)
            {
                yield break;
            }

            if (SessionFolder.JournalIn(folder) is not { } journal)
            {
                continue;
            }

            long bytes = new FileInfo(journal).Length;
            HandRow? row = kept.TryGetValue(Path.GetFileName(folder), out HandRow? known) && known.Bytes == bytes ? known
                : time.GetElapsedTime(begun) < Patience ? Reviewed(folder, bytes)
                : null;
            steered += row is { Steered: true } ? 1 : 0;
            if (row is not null)
            {
                yield return row;
            }
        }
    }

    private static HandRow Reviewed(string folder, long bytes)
    {
        string name = Path.GetFileName(folder);
        var nothing = new HandRow(name, bytes, false, [], null);
        if (!Recording.ReadAll(folder).Try(out Recording? recording, out _)
            || recording.Envelopes is not [{ Event: SessionOpened { Settings.Kind: SessionKind.Live } }, ..]
            || ReviewRecorder.Of(recording.Envelopes) is not { } review)
        {
            return nothing;
        }

        var pass = HandOfPass.Of(review.Hand);
        return new HandRow(
            name,
            bytes,
            pass.Keys.Length > 0 || pass.Amount is not null,
            [.. pass.Keys.Select(k => new HandKey(Math.Round(k.KeySeconds, 2), Math.Round(k.SizeDegrees, 1), Math.Round(k.TurnDegrees, 1)))],
            pass.Amount is { } amount ? new HandAmount(Math.Round(amount.Value, 3), Math.Round(amount.Sd, 3), amount.Count) : null);
    }

    private static Dictionary<string, HandRow> Kept(string path)
    {
        var info = new FileInfo(path);
        if (!info.Exists || info.Length > LongestFile)
        {
            return [];
        }

        try
        {
            HandFileBody? file = JsonSerializer.Deserialize(File.ReadAllBytes(path), HandJson.Default.HandFileBody);
            return file is { Version: Version, Passes.IsDefault: false }
                ? file.Passes.Where(r => r is { Session: not null, Keys.IsDefault: false }).GroupBy(r => r.Session, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal)
                : [];
        }
        catch (JsonException)
        {
            return [];
        }
    }

    private static string Text(LearntHand learnt, HandRow[] rows) => JsonSerializer.Serialize(
        new HandFileBody(
            Version,
            learnt.ReactionSeconds is { } r ? new HandAmount(Math.Round(r.Value, 3), Math.Round(r.Sd, 3), r.Count) : null,
            learnt.Amount is { } a ? new HandAmount(Math.Round(a.Value, 3), Math.Round(a.Sd, 3), a.Count) : null,
            [.. rows]),
        HandJson.Default.HandFileBody) + "\n";
}

/// <summary>The file: what is known, and the passes that it rests on.</summary>
/// <param name="Version">Version of its form.</param>
/// <param name="ReactionSeconds">From a call to the begin of the move.</param>
/// <param name="Amount">Moves against what is called.</param>
/// <param name="Passes">The latest sessions, latest first.</param>
internal sealed record HandFileBody(int Version, HandAmount? ReactionSeconds, HandAmount? Amount, ImmutableArray<HandRow> Passes);

/// <summary>A figure with its error.</summary>
/// <param name="Value">The figure.</param>
/// <param name="Sd">Its error.</param>
/// <param name="Count">What it rests on.</param>
internal sealed record HandAmount(double Value, double Sd, int Count);

/// <summary>A key "moved" after a call.</summary>
/// <param name="AfterSeconds">How long after it.</param>
/// <param name="SizeDegrees">Size of the move on the sky.</param>
/// <param name="TurnDegrees">The larger turn of its two axes.</param>
internal sealed record HandKey(double AfterSeconds, double SizeDegrees, double TurnDegrees);

/// <summary>A session.</summary>
/// <param name="Session">Name of its folder.</param>
/// <param name="Bytes">Length of its journal then.</param>
/// <param name="Steered">Whether a person steered and something was told.</param>
/// <param name="Keys">Keys after calls.</param>
/// <param name="Amount">Amount of its moves; null where the level did not tell.</param>
internal sealed record HandRow(string Session, long Bytes, bool Steered, ImmutableArray<HandKey> Keys, HandAmount? Amount)
{
    /// <summary>The pass for the hand.</summary>
    public HandOfPass Pass() => new(
        [.. Keys.Where(k => k is not null).Select(k => new ReactionPoint(default, k.AfterSeconds, k.AfterSeconds, k.SizeDegrees, k.TurnDegrees))],
        Amount is { } amount ? new Spread(amount.Value, amount.Sd, amount.Count) : null);
}

/// <summary>Reads and writes it without reflection.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, WriteIndented = true)]
[JsonSerializable(typeof(HandFileBody))]
internal sealed partial class HandJson : JsonSerializerContext;
