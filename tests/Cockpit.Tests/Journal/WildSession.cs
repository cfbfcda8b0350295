using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Journal;

/// <summary>A good session in which some lines hold wild values, each with the checksum that belongs to it.</summary>
/// <param name="Text">The journal.</param>
/// <param name="Untouched">The events of the lines that were left as they were.</param>
internal sealed record WildSession(string Text, IReadOnlyList<Envelope> Untouched)
{
    private const int Events = 60;
    private const int MostWild = 6;

    private static readonly DateTimeOffset Start = new(2026, 11, 26, 17, 50, 0, TimeSpan.Zero);

    private static readonly string[] WildValues =
    [
        "0", "-1", "-5", "99", "1e9", "-1e9", "1e27", "7.9e28", "9e11", "1e300", "-1e300", "1e308", "4e-320", "9223372036854775807", "-9223372036854775808",
        "18446744073709551615", "\"NaN\"", "\"Infinity\"", "\"-Infinity\"", "null", "true", "\"\"", "[]", "[null]", "[7]", "{}", "[[[[[[]]]]]]", "\"9999-12-31T23:59:59.9999999Z\"",
        "\"0001-01-01T00:00:00Z\"", "\"0001-01-01T00:00:00+14:00\"", "\"\\u001b]0;title\\u0007\"", "\"\\u202e\\u009b31m\"", "\"\\ud83d\\udef0\"", "\"PETREL 2\\n1 x\\n2 y\"",
    ];

    /// <summary>Makes one; the same seed makes the same.</summary>
    public static WildSession Make(ulong seed)
    {
        Xoshiro256 chance = new(seed);
        List<string> lines = [Line(output => new JournalHeader(JournalHeader.CurrentFormat, "0.1.0", Start).Write(output))];
        List<Envelope> untouched = [];
        HashSet<int> wild = [.. Enumerable.Range(0, 1 + chance.NextBelow(MostWild)).Select(_ => 1 + chance.NextBelow(Events))];
        if (seed % 3 == 0)
        {
            wild.Add(1);
        }

        for (int number = 1; number <= Events; number++)
        {
            Envelope envelope = Good(number);
            string line = Line(output => JournalLine.Write(output, envelope));
            if (wild.Contains(number))
            {
                lines.Add(Wild(line, chance));
            }
            else
            {
                lines.Add(line);
                untouched.Add(envelope);
            }
        }

        return new WildSession(string.Concat(lines), untouched);
    }

    private static Envelope Good(int number)
    {
        TimeSpan elapsed = TimeSpan.FromSeconds(number * 0.5);
        SessionEvent happened = number switch
        {
            1 => new SessionOpened(Settings()),
            2 => new SpeakerChanged("bell", "no sound device answers"),
            3 => new FeedConnected("signal", "tcp 127.0.0.1:5010"),
            Events => new SessionClosed("the operator ended it"),
            _ => (number % 7) switch
            {
                0 => new OperatorPressed((OperatorKey)(number % 10)),
                1 => new TruthRecorded(Angle.FromDegrees(number), Angle.FromDegrees(30), new Decibels(3)),
                2 => new FeedLineRejected("signal", "column 4: decimal comma", number, 1),
                3 => new ClockCorrected(TimeSpan.Zero, "set by hand"),
                4 => new Ticked(),
                _ => new SignalMeasured("signal", new SignalSample { Utc = Start + elapsed, SnrDb = 7.5 + (number % 3), LevelDb = -60, Locked = true, Frames = number }),
            },
        };
        return new Envelope(number, elapsed, Start + elapsed, "program", happened);
    }

    private static SessionSettings Settings()
    {
        ElementFile elements = ElementSets.Read("satellites.tle", new StringReader(ReferenceFiles.Text("satellites.tle")));
        return new SessionSettings
        {
            ProgramVersion = "0.1.0",
            Kind = SessionKind.Live,
            StationName = "Oakridge",
            Station = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520),
            SatelliteName = "BRACKWING 5",
            Elements = elements.Sets.Single(set => string.Equals(set.Name, "BRACKWING 5", StringComparison.Ordinal)),
            Feeds = [FeedSettings.Signal],
        };
    }

    private static string Line(Action<IBufferWriter<byte>> write)
    {
        ArrayBufferWriter<byte> output = new();
        write(output);
        return Encoding.UTF8.GetString(output.WrittenSpan);
    }

    /// <summary>One value anywhere in the line becomes a wild one, goes, or is doubled.</summary>
    private static string Wild(string line, Xoshiro256 chance)
    {
        JsonObject root = JsonNode.Parse(line)!.AsObject();
        root.Remove("crc");
        List<(JsonObject Parent, string Name)> places = [.. Places(root)];
        (JsonObject parent, string name) = places[chance.NextBelow(places.Count)];
        string value = WildValues[chance.NextBelow(WildValues.Length)];
        string body;
        if (chance.NextBelow(8) == 0)
        {
            parent.Remove(name);
            body = root.ToJsonString();
        }
        else
        {
            // A number that JsonNode would write in its own way has to stay as it is.
            string mark = string.Create(CultureInfo.InvariantCulture, $"mark{chance.NextBelow(1 << 30)}");
            parent[name] = mark;
            body = root.ToJsonString().Replace($"\"{mark}\"", value, StringComparison.Ordinal);
        }

        return Journals.Checked(body[..^1] + ",\"crc\":\"00000000\"}");
    }

    private static IEnumerable<(JsonObject Parent, string Name)> Places(JsonObject parent)
    {
        foreach ((string name, JsonNode? value) in parent)
        {
            yield return (parent, name);
            foreach ((JsonObject, string) inner in value is JsonObject child ? Places(child) : [])
            {
                yield return inner;
            }
        }
    }
}
