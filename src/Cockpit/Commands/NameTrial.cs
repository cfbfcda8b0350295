using System.Collections.Immutable;
using System.Globalization;
using System.Text.Encodings.Web;
using Cockpit.Checks;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Screen.Panels;
using Cockpit.Screen.Views;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using Cockpit.Wiring;

namespace Cockpit.Commands;

/// <summary>Sends names through everything that shows one, in this process and a folder of its own, and counts what comes out.</summary>
internal sealed class NameTrial : IDisposable
{
    private const int Together = 40;

    /// <summary>The search for the pass takes most of the time and has nothing to do with the name.</summary>
    private const int OneInSky = 20;
    private const string Tle = "1 99101U 26010A   26328.24903196  .00000147  00000-0  14012-3 0  4048\n2 99101  98.5970  30.2891 0012686 278.7665 108.0468 14.27965384291364";
    private static readonly string[] Formats = ["table", "csv", "json"];
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 0, 0, TimeSpan.Zero);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-text-");
    private readonly SortedDictionary<string, int> _shown = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> _raw = new(StringComparer.Ordinal);
    private readonly List<string> _failures = [];

    /// <summary>How many texts each way has shown.</summary>
    public IReadOnlyDictionary<string, int> Shown => _shown;

    /// <summary>One sentence each.</summary>
    public IReadOnlyList<string> Failures => _failures;

    /// <summary>Characters that came out and that a terminal or a viewer may obey: where and which, and how often.</summary>
    public IReadOnlyDictionary<string, int> Raw => _raw;

    /// <summary>Runs the trial.</summary>
    public async Task RunAsync(ImmutableArray<string> names, CancellationToken cancel)
    {
        string[][] groups = [.. names.Chunk(Together)];
        for (int i = 0; i < groups.Length; i++)
        {
            cancel.ThrowIfCancellationRequested();
            await ThroughElementsAsync(groups[i], Formats[i % Formats.Length]);
        }

        for (int i = 0; i < names.Length; i++)
        {
            cancel.ThrowIfCancellationRequested();
            await ThroughSessionAsync(names[i], withSky: i % OneInSky == 0);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _folder.Delete(recursive: true);

    private async Task ThroughElementsAsync(string[] names, string format)
    {
        string file = Path.Combine(_folder.FullName, "elements.json");
        string calendar = Path.Combine(_folder.FullName, "passes.ics");
        await File.WriteAllTextAsync(file, "[" + string.Join(",\n", names.Select(Omm)) + "]");
        string[] here = ["--elements", file, "--station", "47.8,11.2,520"];
        await ThroughCommandAsync("passes", names.Length, ["passes", .. here, "--from", "2026-11-25T09:10:00Z", "--for", "20m", "--format", format, "--ics", calendar]);
        await ThroughCommandAsync("look", names.Length, ["look", .. here, "--at", "2026-11-25T10:18:00Z", "--format", format]);
        if (File.Exists(calendar))
        {
            CameOut("calendar", names.Length, await File.ReadAllTextAsync(calendar), "\r\n");
            File.Delete(calendar);
        }
    }

    private async Task ThroughCommandAsync(string way, int count, string[] words)
    {
        using StringWriter output = new();
        using StringWriter error = new();
        int code = await CommandRoot.RunAsync(words, output, error);
        CameOut(way, count, Printed(output), "\n");
        CameOut(way, 0, Printed(error), "\n");
        if (code != 0)
        {
            _failures.Add(string.Create(CultureInfo.InvariantCulture, $"{way}: code {code}: {error.ToString().Split('\n')[0]}"));
        }
    }

    private async Task ThroughSessionAsync(string name, bool withSky)
    {
        ImmutableArray<Envelope> session = [.. SessionOf(name, withSky).Select((happened, i) => new Envelope(i + 1, TimeSpan.FromSeconds(i), Start.AddSeconds(i), Sources.Program, happened))];
        ThroughFold("live", name, session, player: null);
        if (!SessionFolder.Create(_folder.FullName, Start, name).Try(out SessionFolder? folder, out ParseError? error)
            || !folder.StartJournal(new NoSink(), TimeProvider.System, name).Try(out JournalWriter? journal, out error))
        {
            _failures.Add(error.ToString());
            return;
        }

        foreach (Envelope envelope in session)
        {
            journal.Append(envelope);
        }

        await journal.DisposeAsync();
        CameOut("session file", 1, await File.ReadAllTextAsync(folder.JournalPath), "\n");
        await ThroughCommandAsync("check session", 1, ["check", "session", folder.Path]);
        if (Recording.ReadAll(folder.Path).Try(out Recording? recording, out error))
        {
            ThroughFold("replay", name, recording.Envelopes, new PlayerNow(1.0, Paused: false, TimeSpan.Zero, TimeSpan.FromSeconds(session.Length)));
        }
        else
        {
            _failures.Add(error.ToString());
        }

        Directory.Delete(folder.Path, recursive: true);
    }

    private void ThroughFold(string way, string name, ImmutableArray<Envelope> session, PlayerNow? player)
    {
        Fold fold = new();
        using StringWriter lines = new();
        PlainLines plain = new(new CleanWriter(lines));
        foreach (Envelope envelope in session)
        {
            Snapshot snapshot = fold.Step(envelope);
            plain.Show(snapshot);
            if (envelope == session[^1])
            {
                ThroughPage(way, name, snapshot, player, 120, 40);
            }
            else if (player is null && envelope.Event is FeedLineRejected or PartFailed)
            {
                ThroughPage(way, name, snapshot, player, 80, 24);
            }
        }

        CameOut(way, session.Length, Printed(lines), "\n");
    }

    private void ThroughPage(string way, string name, Snapshot snapshot, PlayerNow? player, int width, int height)
    {
        PrintedPage page = PrintedPage.Of(snapshot, player, width, height);
        _failures.AddRange(page.Failures.Select(failure => $"{way}: {RandomNames.Visible(name)}: {failure}"));
        CameOut(way, 1, string.Join('\n', page.Lines), "\n");
    }

    // Where the system ends its lines with two characters both belong to the end.
    private static string Printed(StringWriter writer) => writer.ToString().Replace(Environment.NewLine, "\n", StringComparison.Ordinal);

    private void CameOut(string way, int count, string text, string ends)
    {
        _shown[way] = _shown.GetValueOrDefault(way) + count;
        string rest = text.Replace(ends, "", StringComparison.Ordinal);
        for (int at = TextFilter.FirstHarmful(rest); at >= 0; at = TextFilter.FirstHarmful(rest))
        {
            string which = string.Create(CultureInfo.InvariantCulture, $"{way}: U+{(int)rest[at]:X4}");
            _raw[which] = _raw.GetValueOrDefault(which) + 1;
            rest = rest[(at + 1)..];
        }
    }

    private static string Omm(string name, int number) => string.Create(
        CultureInfo.InvariantCulture,
        $$"""
        {"OBJECT_NAME":{{Quoted(name)}},"OBJECT_ID":"2026-010A","EPOCH":"2026-11-24T05:58:36.361344","MEAN_MOTION":14.27965384,"ECCENTRICITY":0.0012686,"INCLINATION":98.597,
        "RA_OF_ASC_NODE":30.2891,"ARG_OF_PERICENTER":278.7665,"MEAN_ANOMALY":108.0468,"NORAD_CAT_ID":{{99101 + number}},"BSTAR":0.00014012}
        """);

    private static string Quoted(string name) => $"\"{JavaScriptEncoder.Default.Encode(name)}\"";

    private static IEnumerable<SessionEvent> SessionOf(string name, bool withSky)
    {
        yield return new SessionOpened(new SessionSettings
        {
            ProgramVersion = name,
            Kind = SessionKind.Live,
            StationName = name,
            Station = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520),
            SatelliteName = name,
            Elements = withSky ? ElementSets.Read("trial", new StringReader(Tle)).Sets[0] : null,
            MinimumElevation = Angle.FromDegrees(5),
            Feeds = [new FeedSettings(name, FeedRole.Signal)],
        });
        yield return new FeedConnected(name, name);
        yield return new FeedLineRejected(name, name, 1, 1);
        yield return new SpeakerChanged(name, name);
        yield return new PartFailed(name, name);
        yield return new Ticked();
        yield return new SessionClosed(name);
    }

    private sealed class NoSink : IEventSink
    {
        public void Publish(string source, SessionEvent sessionEvent)
        {
        }
    }
}
