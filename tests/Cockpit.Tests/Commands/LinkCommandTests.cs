using System.Globalization;

namespace Cockpit.Tests.Commands;

public sealed class LinkCommandTests
{
    // Slant range of a circular orbit at 830 km over a sphere of 6371 km, and free-space loss at 1700 MHz (ITU-R P.525), worked by hand.
    [Theory]
    [InlineData(5, 2847, 166.1)]
    [InlineData(10, 2428, 164.8)]
    [InlineData(30, 1442, 160.2)]
    [InlineData(90, 830, 155.4)]
    public async Task Range_and_free_space_loss_are_those_of_the_textbook(double elevation, double rangeKm, double lossDb)
    {
        double[] row = (await Rows()).Single(cells => Math.Abs(cells[0] - elevation) < 0.01);
        Assert.Equal(rangeKm, row[1], 1.0);
        Assert.Equal(-lossDb, row[3], 0.1);
    }

    [Fact]
    public async Task The_lines_add_up_to_the_density_and_that_less_the_need_is_the_margin()
    {
        foreach (double[] row in await Rows("--dish", "0.6", "--service", "qpsk-2333k"))
        {
            Assert.Equal(row[^3], row[2..^3].Sum(), 0.05);
            Assert.Equal(row[^1], row[^3] - row[^2], 0.011);
        }
    }

    [Fact]
    public async Task A_larger_dish_has_more_margin_everywhere_and_higher_is_better()
    {
        double[][] small = await Rows("--dish", "0.6"), large = await Rows("--dish", "1.0");
        Assert.All(small.Zip(large), pair => Assert.InRange(pair.Second[^1] - pair.First[^1], 3.5, 5.5));
        Assert.All(small.Zip(small.Skip(1)), pair => Assert.True(pair.Second[^1] > pair.First[^1]));
    }

    [Fact]
    public async Task The_table_for_people_names_every_line_with_its_origin()
    {
        CommandRun run = await CommandRun.Of("link", "--dish", "0.8");
        Assert.Equal(0, run.ExitCode);
        foreach (string word in new[] { "beam 15.4°", "free space", "ITU-R P.525", "G/T", "C/N0, dB-Hz", "needed", "margin", "90°" })
        {
            Assert.Contains(word, run.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_height_that_is_no_orbit_is_refused_in_a_sentence()
    {
        CommandRun run = await CommandRun.Of("link", "--height", "20");
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--height", run.Error, StringComparison.Ordinal);
    }

    private static async Task<double[][]> Rows(params string[] options)
    {
        CommandRun run = await CommandRun.Of(["link", "--format", "csv", .. options]);
        Assert.Equal(0, run.ExitCode);
        return [.. run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => line.Split(',').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray())];
    }
}
