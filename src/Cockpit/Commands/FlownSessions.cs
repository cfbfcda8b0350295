using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>The options by which simulated passes become whole sessions on the disk: samples, and many of them to measure with.</summary>
internal sealed class FlownSessions
{
    private const int Most = 10_000;

    private readonly Option<long?> _seed = CommonOptions.Whole("--flown", "SEED", "Fly a whole simulated pass at once, and write it", 0, int.MaxValue);
    private readonly Option<FaultChoice?> _faults = CommonOptions.Named("--faults", "NAME,...|none", "What goes wrong in it, in this order; by the seed where missing", FaultChoice.Read);
    private readonly Option<long?> _count = CommonOptions.Whole("--count", "N", "So many sessions, each of the next seed", 1, Most);
    private readonly Option<long?> _flights = CommonOptions.Whole("--flights", "N", "Fly only so many, and write each again and again: many sessions soon", 1, Most);
    private readonly Option<bool> _pack = new("--pack") { Description = "Write them packed" };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _seed, _faults, _count, _flights, _pack })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>What is asked for; null without --flown.</summary>
    public FlownSessionsWish? Read(ParseResult parsed) => parsed.GetValue(_seed) is { } seed
        ? new FlownSessionsWish((ulong)seed, (int)(parsed.GetValue(_count) ?? 1), (int)(parsed.GetValue(_flights) ?? Most), parsed.GetValue(_faults)?.Kinds, parsed.GetValue(_pack))
        : null;
}

/// <summary>Which faults were chosen.</summary>
/// <param name="Kinds">In their order.</param>
internal sealed record FaultChoice(ImmutableArray<FaultKind> Kinds)
{
    /// <summary>Reads <c>late,wrong-way</c> or <c>none</c>.</summary>
    public static Parsed<FaultChoice> Read(string text, string source)
    {
        var kinds = ImmutableArray.CreateBuilder<FaultKind>();
        foreach (string word in string.Equals(text, "none", StringComparison.Ordinal) ? [] : text.Split(','))
        {
            FaultKind[] found = [.. Enum.GetValues<FaultKind>().Where(kind => string.Equals(NameOf(kind), word, StringComparison.Ordinal))];
            if (found.Length == 0)
            {
                return new ParseError(source, 0, 0, $"{Quoted.Of(word)} is not known; choose from {string.Join(", ", Enum.GetValues<FaultKind>().Select(NameOf))}, or none");
            }

            kinds.Add(found[0]);
        }

        return new FaultChoice(kinds.ToImmutable());
    }

    private static string NameOf(FaultKind kind)
    {
        StringBuilder name = new();
        foreach (char letter in kind.ToString())
        {
            name.Append(char.IsUpper(letter) && name.Length > 0 ? "-" : "").Append(char.ToLowerInvariant(letter));
        }

        return name.ToString();
    }
}

/// <summary>Simulated passes that are wanted as sessions.</summary>
/// <param name="Seed">Of the first.</param>
/// <param name="Count">How many sessions.</param>
/// <param name="Flights">How many are flown at most; the others repeat them.</param>
/// <param name="Faults">What goes wrong; null = by the seed.</param>
/// <param name="Pack">Whether they are packed.</param>
internal sealed record FlownSessionsWish(ulong Seed, int Count, int Flights, ImmutableArray<FaultKind>? Faults, bool Pack)
{
    /// <summary>Flies and writes.</summary>
    /// <returns>The exit code.</returns>
    public int Write(string root, TextWriter output, TextWriter complaints, CancellationToken cancellation)
    {
        List<string> flown = [];
        for (int i = 0; i < Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            Parsed<string> written = i < Flights ? Fly(root, Seed + (ulong)i) : Repeat(root, flown[i % Flights]);
            if (!written.Try(out string? journal, out ParseError? error))
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.Failed;
            }

            flown.Add(journal);
            output.WriteLine(Path.GetDirectoryName(journal));
        }

        return 0;
    }

    private Parsed<string> Fly(string root, ulong seed)
    {
        ImmutableArray<Envelope> envelopes = [.. Scattered(FaultyPass.Fly(seed, Faults).Envelopes, seed)];
        if (!SessionFolder.Create(root, envelopes[0].Utc, ((SessionOpened)envelopes[0].Event).Settings.SatelliteName).Try(out SessionFolder? folder, out ParseError? error))
        {
            return error;
        }

        try
        {
            JournalText.Write(folder.JournalPath, new JournalHeader(JournalHeader.CurrentFormat, ProgramVersion.Text, envelopes[0].Utc), envelopes);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(folder.Path, 0, 0, $"the session cannot be written ({FileWords.Of(failure)})");
        }

        return !Pack ? folder.JournalPath
            : SessionPacker.Pack(folder.Path, replace: true).Try(out PackedFile packed, out error) ? packed.Path
            : error;
    }

    private static Parsed<string> Repeat(string root, string journal)
    {
        string name = Path.GetFileName(Path.GetDirectoryName(journal)) ?? "";
        if (!SessionFolder.Create(root, DateTimeOffset.UnixEpoch, name).Try(out SessionFolder? folder, out ParseError? error))
        {
            return error;
        }

        try
        {
            string copy = Path.Combine(folder.Path, Path.GetFileName(journal));
            File.Copy(journal, copy);
            return copy;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return new ParseError(folder.Path, 0, 0, $"the session cannot be written ({FileWords.Of(failure)})");
        }
    }

    /// <summary>The events as a real clock stamps them: each some milliseconds late, to 100 ns; also what makes a journal large when it is packed.</summary>
    private static IEnumerable<Envelope> Scattered(ImmutableArray<Envelope> envelopes, ulong seed)
    {
        const int mostLateTicks = 40_000; // 4 ms
        var chance = new Xoshiro256(seed, 11);
        TimeSpan start = envelopes[0].Elapsed;
        SessionSettings settings = ((SessionOpened)envelopes[0].Event).Settings with { Kind = SessionKind.Simulated, ProgramVersion = ProgramVersion.Text };
        long before = 0;
        foreach (Envelope envelope in envelopes)
        {
            long late = Math.Max(before + 1 - (envelope.Elapsed - start).Ticks, chance.NextBelow(mostLateTicks));
            before = (envelope.Elapsed - start).Ticks + late;
            var by = TimeSpan.FromTicks(late);
            yield return envelope with
            {
                Elapsed = envelope.Elapsed + by,
                Utc = envelope.Utc + by,
                Event = envelope.Event is SessionOpened ? new SessionOpened(settings) : envelope.Event,
            };
        }

        Envelope last = envelopes[^1];
        var end = TimeSpan.FromTicks(mostLateTicks + 1);
        yield return last with { Elapsed = last.Elapsed + end, Utc = last.Utc + end, Source = Sources.Program, Event = new SessionClosed("flown to its end") };
    }
}
