using System.Text;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;
using Cockpit.Devices.Outlets;

namespace Cockpit.Tests.Simulators;

public sealed class LineSenderTests
{
    private static readonly SignalSample Sample = new() { SnrDb = 7.25, LevelDb = -61.5, Locked = true, Utc = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero) };

    [Theory]
    [InlineData(LineForm.Pairs, "t=2026-11-25T12:00:00.0000000Z level=-61.5 snr=7.25 lock=1\n")]
    [InlineData(LineForm.Number, "7.25\n")]
    [InlineData(LineForm.Json, "{\"t\":\"2026-11-25T12:00:00.0000000Z\",\"level\":-61.5,\"snr\":7.25,\"lock\":1}\n")]
    public void Good_lines_are_in_the_grammar_of_the_feed(LineForm form, string expected)
    {
        byte[] line = new LineScript(new SenderSettings { Form = form }).Next(Sample);
        Assert.Equal(expected, Encoding.ASCII.GetString(line));
        Assert.Equal(form == LineForm.Number ? new SignalSample { LevelDb = 7.25 } : Sample, SignalLine.Read(line.AsSpan(..^1), "signal").Sample);
    }

    [Fact]
    public void All_rubbish_is_rejected_by_the_feed_and_has_its_share()
    {
        LineScript all = new(new SenderSettings { RubbishShare = 1 });
        for (int i = 0; i < 200; i++)
        {
            byte[] line = all.Next(Sample);
            Assert.Equal((byte)'\n', line[^1]);
            Assert.Equal(1, line.Count(value => value == (byte)'\n'));
            Assert.NotNull(SignalLine.Read(line.AsSpan(..^1), "signal").Error);
        }

        LineScript tenth = new(new SenderSettings { RubbishShare = 0.1, Seed = 5 });
        Assert.InRange(Enumerable.Range(0, 1000).Count(_ => SignalLine.Read(tenth.Next(Sample).AsSpan(..^1), "signal").Error is not null), 70, 130);
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(9.9, false)]
    [InlineData(10, true)]
    [InlineData(11.9, true)]
    [InlineData(12, false)]
    [InlineData(20.5, true)]
    public void An_outage_comes_again_and_again_but_not_at_the_start(double seconds, bool expected)
    {
        Assert.Equal(expected, new Outage(TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(2)).At(TimeSpan.FromSeconds(seconds)));
        Assert.False(default(Outage).At(TimeSpan.FromSeconds(seconds)));
    }

    [Fact]
    public async Task It_stands_still_and_dies_and_comes_back_as_it_is_told_to()
    {
        ListOutlet outlet = new();
        SenderSettings settings = new()
        {
            LinesPerSecond = 1,
            Form = LineForm.Number,
            Stall = new(TimeSpan.FromSeconds(3), TimeSpan.FromSeconds(1)),
            Away = new(TimeSpan.FromSeconds(7), TimeSpan.FromSeconds(2)),
        };
        LineScript script = new(settings);
        await using LineSender sender = new(outlet, elapsed => elapsed.TotalSeconds is 5 ? null : script.Next(new SignalSample { LevelDb = elapsed.TotalSeconds }), settings, TimeProvider.System);
        sender.Open();
        for (int second = 0; second <= 10; second++)
        {
            await sender.StepAsync(TimeSpan.FromSeconds(second), CancellationToken.None);
        }

        // Nothing at 3, 6 and 9 (still), at 5 (nothing to say), at 7 and 8 (gone).
        Assert.Equal(["appear", "0", "1", "2", "4", "leave", "appear", "10"], outlet.Log);
    }

    private sealed class ListOutlet : IOutlet
    {
        public List<string> Log { get; } = [];

        public string Where => "list";

        public void Appear() => Log.Add("appear");

        public ValueTask SendAsync(ReadOnlyMemory<byte> bytes, CancellationToken stop)
        {
            Log.Add(Encoding.ASCII.GetString(bytes.Span).TrimEnd());
            return ValueTask.CompletedTask;
        }

        public void Leave() => Log.Add("leave");

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
