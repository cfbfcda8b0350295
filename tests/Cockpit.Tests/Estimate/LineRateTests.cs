using Cockpit.Core.Estimate;

namespace Cockpit.Tests.Estimate;

public sealed class LineRateTests
{
    [Fact]
    public void Six_lines_a_second_counted_ten_times_a_second_are_all_of_them()
    {
        LineRate rate = new();
        List<double> shares = Run(rate, from: 0, blocks: 20, linesPerBlock: 3.0);
        Assert.NotEmpty(shares);
        Assert.All(shares, share => Assert.Equal(1.0, share, 1e-9));
        Assert.All(Run(rate, from: 20, blocks: 10, linesPerBlock: 0.0, start: 60), share => Assert.Equal(0.0, share, 1e-9));
    }

    [Fact]
    public void A_count_that_stands_still_from_the_begin_says_nothing() =>
        Assert.Empty(Run(new LineRate(), from: 0, blocks: 20, linesPerBlock: 0.0));

    [Fact]
    public void Half_of_the_lines_are_a_half_and_a_new_count_begins_anew()
    {
        LineRate rate = new();
        Run(rate, from: 0, blocks: 20, linesPerBlock: 4.0);
        Assert.All(Run(rate, from: 20, blocks: 8, linesPerBlock: 2.0, start: 80), share => Assert.Equal(0.5, share, 1e-9));
        rate.Count(3);
        Assert.Null(rate.Close(14.5));
    }

    private static List<double> Run(LineRate rate, int from, int blocks, double linesPerBlock, double start = 0.0)
    {
        List<double> shares = [];
        double lines = start;
        for (int block = from; block < from + blocks; block++)
        {
            for (int i = 1; i <= 5; i++)
            {
                rate.Count((long)(lines + (linesPerBlock * i / 5.0)));
            }

            lines += linesPerBlock;
            if (rate.Close(0.5 * (block + 1)) is { } share)
            {
                shares.Add(share);
            }
        }

        return shares;
    }
}
