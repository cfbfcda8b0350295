using System.Text;
using System.Text.Json;
using Cockpit.Core.Formats.Signal;
using Cockpit.Commands;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Wiring;

namespace Cockpit.Tests.Commands;

public sealed class GuideFilterTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 10, 34, 0, TimeSpan.Zero);

    [Fact]
    public void Each_record_gives_one_object_and_the_same_records_give_the_same_lines()
    {
        string[] once = Run(Records(1500));
        Assert.Equal(1500, once.Length);
        Assert.Equal(once, Run(Records(1500)));
    }

    [Fact]
    public void The_parts_of_a_nudge_add_up_to_the_angle_between_dish_and_target()
    {
        int nudges = 0;
        foreach (string line in Run(Records(3000)))
        {
            using JsonDocument json = JsonDocument.Parse(line);
            JsonElement now = json.RootElement;
            if (now.GetProperty("nudge").ValueKind == JsonValueKind.Null)
            {
                Assert.Equal(JsonValueKind.Null, now.GetProperty("nudge_at").ValueKind);
                continue;
            }

            nudges++;
            JsonElement nudge = now.GetProperty("nudge");
            (double az, double el) = Direction(now.GetProperty("dish"));
            (double toAz, double toEl) = Direction(now.GetProperty("target"));
            double size = Math.Sqrt(Math.Pow(nudge.GetProperty("right_deg").GetDouble(), 2) + Math.Pow(nudge.GetProperty("up_deg").GetDouble(), 2));
            double cos = (Sin(el) * Sin(toEl)) + (Cos(el) * Cos(toEl) * Cos(toAz - az));
            Assert.Equal(Math.Acos(Math.Clamp(cos, -1.0, 1.0)) * 180.0 / Math.PI, size, 0.001);
            Assert.Equal(toEl - el, nudge.GetProperty("tilt_deg").GetDouble(), 1e-5);
        }

        Assert.True(nudges > 500);
    }

    [Fact]
    public void A_call_keeps_its_moment_and_a_new_one_has_a_later_one()
    {
        string? last = null;
        string? at = null;
        foreach (string line in Run(Records(4000)))
        {
            using JsonDocument json = JsonDocument.Parse(line);
            bool called = json.RootElement.GetProperty("word").GetString() == "move";
            string? now = called ? json.RootElement.GetProperty("nudge_at").GetString() : null;
            if (called && now != at)
            {
                Assert.True(last is null || string.CompareOrdinal(now, last) > 0);
                last = now;
            }

            at = now;
        }

        Assert.NotNull(last);
    }

    [Fact]
    public void A_record_with_only_a_time_is_a_tick_and_one_may_carry_a_key()
    {
        string[] lines = Run(["t=2026-11-25T10:36:30Z", "t=2026-11-25T10:36:31Z key=peaked", "t=2026-11-25T10:36:33Z"]);
        Assert.Equal(3, lines.Length);

        // The session begins within the pass: the dish is being set up until a key says that it stands.
        Assert.Contains("\"word\":\"point\"", lines[0], StringComparison.Ordinal);
        Assert.DoesNotContain("\"word\":\"point\"", lines[1], StringComparison.Ordinal);
        Assert.Contains("by plan, no signal", lines[2], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("snr=5", "the record has no time")]
    [InlineData("t=2026-11-25T10:35:00Z key=enter", "key is \"enter\"; expected peaked, moved, not-moved, search")]
    public void A_record_that_cannot_be_used_says_why(string line, string complaint) => Assert.Contains(
        complaint, SignalLine.ReadTimed(Encoding.UTF8.GetBytes(line), "test", 3).Error!.ToString(), StringComparison.Ordinal);

    [Fact]
    public void A_time_that_falls_is_one_sentence()
    {
        GuideFilter filter = new(Demo.Of(1, "test").Settings);
        Assert.Null(Take(filter, "t=2026-11-25T10:35:00Z", 1).Error);
        Assert.Matches("^test:2:1: t falls from .* to .*; records must come in the order of their times$", Take(filter, "t=2026-11-25T10:34:59Z", 2).Error!.ToString());
    }

    [Fact]
    public async Task A_session_that_is_kept_replays_to_the_same_moments_as_its_records()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("cockpit-guide-");
        try
        {
            string[] records = [.. Records(1200)];
            records[900] += " key=moved";
            using MemoryStream input = new(Encoding.UTF8.GetBytes(string.Join('\n', records)));
            using StringWriter output = new();
            using StringWriter complaints = new();
            Assert.Equal(0, await GuideCommand.FilterAsync(input, _ => Demo.Of(1, "test").Settings, folder.FullName, output, complaints));
            Assert.Equal("", complaints.ToString());
            string[] lines = output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
            Assert.Equal(records.Length, lines.Length);

            Assert.True(Recording.ReadAll(Assert.Single(folder.GetDirectories()).FullName).Try(out Recording? kept, out _));
            Assert.Equal(records.Length + 3, kept.Envelopes.Length);
            Fold fold = new();
            GuideJson json = new();
            string last = "";
            foreach (Envelope envelope in kept.Envelopes.SkipLast(1))
            {
                last = json.Line(new GuideMoment(fold.Step(envelope), null));
            }

            Assert.Equal(lines[^1], last);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Core.Formats.Parsed<GuideMoment> Take(GuideFilter filter, string line, int number) =>
        filter.Take(SignalLine.ReadTimed(Encoding.UTF8.GetBytes(line), "test", number), "test", number);

    private static string[] Run(IEnumerable<string> records)
    {
        GuideFilter filter = new(Demo.Of(1, "test").Settings);
        GuideJson json = new();
        return [.. records.Select((line, i) =>
        {
            Core.Formats.Parsed<GuideMoment> taken = Take(filter, line, i + 1);
            Assert.Null(taken.Error);
            return json.Line(taken.Value!);
        })];
    }

    private static IEnumerable<string> Records(int count)
    {
        for (int i = 0; i < count; i++)
        {
            DateTimeOffset at = Start.AddSeconds(0.1 * i);
            double snr = at < Start.AddSeconds(90) ? -3.0 : 4.0 + (3.0 * Math.Sin(i / 170.0));
            yield return FormattableString.Invariant($"t={at:yyyy-MM-dd'T'HH:mm:ss.f}Z snr={snr:0.00}");
        }
    }

    private static (double Azimuth, double Elevation) Direction(JsonElement element) =>
        (element.GetProperty("az_deg").GetDouble(), element.GetProperty("el_deg").GetDouble());

    private static double Sin(double degrees) => Math.Sin(degrees * Math.PI / 180.0);

    private static double Cos(double degrees) => Math.Cos(degrees * Math.PI / 180.0);
}
