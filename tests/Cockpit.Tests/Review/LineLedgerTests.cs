using System.Collections.Immutable;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

public sealed class LineLedgerTests
{
    private const double End = 100.0;

    /// <summary>Counts ten times a second of a decoder that loses every line in some spans, arriving as they are told.</summary>
    private static ImmutableArray<FrameCount> Counts(Func<double, bool> lost, Func<double, bool>? told = null, Func<double, long, long>? shown = null)
    {
        var counts = ImmutableArray.CreateBuilder<FrameCount>();
        double frames = 40.0;
        for (int i = 0; i <= 1000; i++)
        {
            double at = i / 10.0;
            frames += i > 0 && !lost(at - 0.05) ? 0.6 : 0.0;
            long count = (long)(frames + 1e-6);
            if (told?.Invoke(at) ?? true)
            {
                counts.Add(new FrameCount(at, shown?.Invoke(at, count) ?? count));
            }
        }

        return counts.ToImmutable();
    }

    private static int Lost(LineLedger? ledger) => ledger!.States.Count(s => s == LineState.Lost);

    [Fact]
    public void Without_a_loss_all_lines_are_received()
    {
        LineLedger ledger = LineLedger.ByFrames(Counts(_ => false), 0.0, End)!;
        Assert.Equal(600, ledger.States.Length);
        Assert.InRange(Lost(ledger), 0, 1);
    }

    [Fact]
    public void Lines_are_lost_when_they_were_lost()
    {
        LineLedger ledger = LineLedger.ByFrames(Counts(at => at is > 20 and < 25 or > 70 and < 72), 0.0, End)!;
        Assert.InRange(Lost(ledger), 41, 43);
        Assert.All(Enumerable.Range(0, 600).Where(i => ledger.States[i] == LineState.Lost), i =>
            Assert.True(ledger.TimeOf(i) is > 19.7 and < 25.3 or > 69.7 and < 72.3, $"line {i} at {ledger.TimeOf(i)}"));
    }

    [Fact]
    public void A_feed_that_stalls_and_makes_up_for_it_has_lost_nothing()
    {
        LineLedger ledger = LineLedger.ByFrames(Counts(_ => false, told: at => at is < 30 or > 45), 0.0, End)!;
        Assert.InRange(Lost(ledger), 0, 1);
    }

    [Fact]
    public void A_feed_that_stays_silent_has_lost_the_rest()
    {
        LineLedger ledger = LineLedger.ByFrames(Counts(_ => false, told: at => at < 60), 0.0, End)!;
        Assert.InRange(Lost(ledger), 238, 242);
    }

    [Fact]
    public void A_decoder_that_was_started_again_counts_on()
    {
        LineLedger ledger = LineLedger.ByFrames(
            Counts(at => at is > 50 and < 60, shown: (at, count) => at < 55 ? count : count - 340), 0.0, End)!;
        Assert.InRange(Lost(ledger), 58, 62);
    }

    [Fact]
    public void Two_counts_are_too_few_to_tell() => Assert.Null(LineLedger.ByFrames([new(10, 0), new(20, 60)], 90.0, End));

    [Fact]
    public void The_need_parts_lines_that_came_from_lines_that_did_not()
    {
        (double, double)[] blocks = [.. Enumerable.Range(0, 40).Select(i => (i * 0.5, i * 0.5 < 7.2 ? 1.0 : 0.0))];
        Assert.InRange(LevelNeed.ByLines(blocks)!.Value, 7.0, 7.5);
        Assert.Null(LevelNeed.ByLines([.. blocks.Where(b => b.Item2 > 0.5)]));
    }
}
