using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Sharing;
using Cockpit.Session.State;
using Cockpit.Tests.Commands;
using Cockpit.Tests.Journal;

namespace Cockpit.Tests.Sharing;

public sealed class SharedSessionTests : IDisposable
{
    private const string Secret = "Wendeline Quist, Oakridge";

    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    private readonly string _folder = Directory.CreateTempSubdirectory("cockpit-share-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_shared_session_replays_with_the_same_directions_to_the_last_bit()
    {
        string file = Path.Combine(_folder, "pass.jsonl.br");
        CommandRun run = await CommandRun.Of("share", Sample, file);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Recording original = Read(Sample);
        Recording shared = Read(file);
        Assert.Empty(shared.Notes);
        Assert.Equal(original.Envelopes.Length, shared.Envelopes.Length);
        Fold one = new();
        Fold other = new();
        int directions = 0;
        for (int i = 0; i < original.Envelopes.Length; i++)
        {
            Snapshot before = one.Step(original.Envelopes[i]);
            Snapshot after = other.Step(shared.Envelopes[i]);
            Assert.Equal(before.Elapsed, after.Elapsed);
            Assert.Equal(before.Sky?.Now, after.Sky?.Now);
            Assert.Equal(before.Sky?.Phase, after.Sky?.Phase);
            Assert.Equal(before.Sky?.ElementAge, after.Sky?.ElementAge);
            Assert.Equal(before.Sky?.Holds.Select(hold => (hold.Azimuth, hold.Elevation)), after.Sky?.Holds.Select(hold => (hold.Azimuth, hold.Elevation)));
            Assert.Equal((before.Aim.Word, before.Aim.Dish, before.Aim.Nudge, before.Aim.Error), (after.Aim.Word, after.Aim.Dish, after.Aim.Nudge, after.Aim.Error));
            Assert.Equal((before.Link.MeasuredDb, before.Link.ExpectedDb, before.Link.Doppler), (after.Link.MeasuredDb, after.Link.ExpectedDb, after.Link.Doppler));
            directions += after.Sky?.Now is null ? 0 : 1;
        }

        Assert.Equal(original.Envelopes.Length, directions);
        CommandRun review = await CommandRun.Of("review", file, "--format", "json");
        Assert.Equal(Part((await CommandRun.Of("review", Sample, "--format", "json")).Output), Part(review.Output));
    }

    [Fact]
    public async Task Neither_names_nor_place_nor_date_stand_in_a_shared_session()
    {
        string file = Path.Combine(_folder, "pass.jsonl");
        Assert.Equal(0, (await CommandRun.Of("share", Sample, file)).ExitCode);
        string text = await File.ReadAllTextAsync(file);
        SessionSettings before = ((SessionOpened)Read(Sample).Envelopes[0].Event).Settings;
        SessionSettings after = ((SessionOpened)Read(file).Envelopes[0].Event).Settings;
        foreach (string known in (string[])[before.StationName, before.SatelliteName, "simulated receiver", "2026-", "99102", Number(before.Station.Latitude.Radians), Number(before.Station.Longitude.Radians)])
        {
            Assert.DoesNotContain(known, text, StringComparison.OrdinalIgnoreCase);
        }

        Assert.Null(after.Elements);
        double north = Math.Abs((after.Station.Latitude - before.Station.Latitude).Degrees) * 111.2;
        double east = Math.Abs((after.Station.Longitude - before.Station.Longitude).Degrees) * 111.2 * Math.Cos(before.Station.Latitude.Radians);
        Assert.InRange(north, 0.0, 5.01);
        Assert.InRange(east, 0.0, 5.1);
        Assert.InRange(north + east, 0.1, 10.0);
        Assert.StartsWith("2000-01-01T00:00:00", Read(file).Envelopes[0].Utc.ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }

    // Every type of event with a secret in each of its texts, so that a type that somebody adds later is thought about here too.
    [Fact]
    public void No_text_of_any_event_gets_through_and_no_type_is_forgotten()
    {
        foreach (bool exact in (bool[])[false, true])
        {
            ImmutableArray<Envelope> secret = [.. EventSamples.All.Select((sample, i) => new Envelope(i + 1, TimeSpan.FromSeconds(i), Journals.Start.AddSeconds(i), Secret, WithSecrets(sample)))];
            Assert.Contains(Secret, Text(secret), StringComparison.Ordinal);
            ImmutableArray<Envelope> shared = SharedSession.Of(secret, exact);
            string text = Text(shared);
            Assert.DoesNotContain("Wendeline", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Oakridge", text, StringComparison.Ordinal);
            string[] missing = [.. EventTypes.All.Where(type => !shared.Any(envelope => envelope.Event.GetType() == type.Type)).Select(type => type.Name)];
            Assert.Equal(exact ? [] : ["picture.grew/1"], missing);
        }
    }

    [Fact]
    public async Task Exact_keeps_the_place_and_takes_the_names()
    {
        string file = Path.Combine(_folder, "pass.jsonl");
        Assert.Equal(0, (await CommandRun.Of("share", Sample, file, "--exact")).ExitCode);
        SessionSettings before = ((SessionOpened)Read(Sample).Envelopes[0].Event).Settings;
        SessionSettings after = ((SessionOpened)Read(file).Envelopes[0].Event).Settings;
        Assert.Equal((before.Station, before.SatelliteName, before.Elements!.EpochUtc), (after.Station, after.SatelliteName, after.Elements!.EpochUtc));
        Assert.Equal(Read(Sample).Envelopes[7].Utc, Read(file).Envelopes[7].Utc);
        string text = await File.ReadAllTextAsync(file);
        Assert.DoesNotContain(before.StationName, text, StringComparison.Ordinal);
        Assert.DoesNotContain("simulated receiver", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_shared_can_be_shared_again_and_nothing_is_written_over()
    {
        string first = Path.Combine(_folder, "first.jsonl");
        string second = Path.Combine(_folder, "second.jsonl");
        Assert.Equal(0, (await CommandRun.Of("share", Sample, first)).ExitCode);
        Assert.Equal(0, (await CommandRun.Of("share", first, second)).ExitCode);
        Assert.Equal(await File.ReadAllTextAsync(first), await File.ReadAllTextAsync(second));
        CommandRun again = await CommandRun.Of("share", Sample, first);
        Assert.Equal((2, ""), (again.ExitCode, again.Output));
        Assert.Contains("is there already", again.Error, StringComparison.Ordinal);
        Assert.Equal([first, second], Directory.GetFileSystemEntries(_folder).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_fix_of_a_receiver_keeps_how_far_it_is_off_the_station_and_nothing_else()
    {
        Recording sample = Read(Sample);
        Site station = ((SessionOpened)sample.Envelopes[0].Event).Settings.Station;
        var fix = new PlaceFixed("place", station.Latitude + Angle.FromDegrees(0.01), station.Longitude - Angle.FromDegrees(0.02), 400.0, 5.0, sample.Envelopes[5].Utc);
        ImmutableArray<Envelope> shared = SharedSession.Of(sample.Envelopes.SetItem(5, sample.Envelopes[5] with { Event = fix }), exact: false);
        Site rounded = ((SessionOpened)shared[0].Event).Settings.Station;
        PlaceFixed told = Assert.IsType<PlaceFixed>(shared[5].Event);
        Assert.Equal(0.01, (told.Latitude - rounded.Latitude).Degrees, 1e-9);
        Assert.Equal(-0.02, (told.Longitude - rounded.Longitude).Degrees, 1e-9);
        Assert.Equal(20.0, told.HeightMetres!.Value - rounded.HeightMetres, 1e-9);
        Assert.Equal(2000, told.Utc!.Value.Year);
    }

    [Fact]
    public async Task A_table_of_directions_that_cannot_be_is_told_and_costs_the_sky_only()
    {
        string file = Path.Combine(_folder, "pass.jsonl");
        Assert.Equal(0, (await CommandRun.Of("share", Sample, file)).ExitCode);
        string[] lines = await File.ReadAllLinesAsync(file);
        foreach ((string good, string wild) in ((string, string)[])[("\"azimuth_rad\":[0", "\"azimuth_rad\":[77"), ("\"range_km\":[", "\"range_km\":[5,"), ("\"aos\":{\"utc\":\"1999", "\"aos\":{\"utc\":\"2040")])
        {
            string[] changed = [.. lines];
            Assert.Contains(good, changed[1], StringComparison.Ordinal);
            changed[1] = Journals.Checked(changed[1].Replace(good, wild, StringComparison.Ordinal)).TrimEnd('\n');
            Recording read = Journals.Read(Encoding.UTF8.GetBytes(string.Join('\n', changed) + "\n"));
            Assert.Contains(read.Notes, note => note.Line == 2 && note.Kind == JournalNoteKind.Wild && note.Text.Contains("table of directions", StringComparison.Ordinal));
            Assert.Null(new Fold().Step(read.Envelopes[0]).Sky);
        }
    }

    private static SessionEvent WithSecrets(SessionEvent sample)
    {
        // Each sample is shared by other tests, so a copy is changed.
        var copy = (SessionEvent)sample.GetType().GetMethod("<Clone>$")!.Invoke(sample, null)!;
        foreach (PropertyInfo property in copy.GetType().GetProperties().Where(property => property.PropertyType == typeof(string) && property.CanWrite))
        {
            property.SetValue(copy, Secret);
        }

        return copy is SessionOpened opened
            ? new SessionOpened(opened.Settings with { StationName = Secret, Feeds = [new FeedSettings(Secret, FeedRole.Signal), .. opened.Settings.Feeds] })
            : copy;
    }

    private static string Text(IEnumerable<Envelope> envelopes)
    {
        ArrayBufferWriter<byte> text = new();
        foreach (Envelope envelope in envelopes)
        {
            JournalLine.Write(text, envelope);
        }

        return Encoding.UTF8.GetString(text.WrittenSpan);
    }

    private static string Number(double number) => number.ToString(CultureInfo.InvariantCulture)[..9];

    // The lines and the gaps without their instants.
    private static string Part(string review) => System.Text.RegularExpressions.Regex.Replace(
        review[..review.IndexOf("\"advice\"", StringComparison.Ordinal)], "\"[a-z_]*utc\": ?\"[^\"]*\"|\"satellite\": ?\"[^\"]*\"", "", System.Text.RegularExpressions.RegexOptions.None, TimeSpan.FromSeconds(5));

    private static Recording Read(string path)
    {
        Assert.True(Recording.ReadAll(path).Try(out Recording? recording, out ParseError? error), $"{error}");
        return recording;
    }
}
