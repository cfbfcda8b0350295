using Cockpit.Commands;
using Cockpit.Core.Formats;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Commands;

public sealed class ReplayMomentsTests
{
    [Fact]
    public void Times_from_the_start_instants_and_kinds_stand_side_by_side()
    {
        Assert.True(ReplayMoments.Read("0:05, 05:30,1:02:03,2026-11-25T10:15:00Z,gaps,alarms", "--text").Try(out ReplayMoments? read, out _));
        Assert.Equal([5.0, 330.0, 3723.0], read.Elapsed.Select(at => at.TotalSeconds));
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 10, 15, 0, TimeSpan.Zero), Assert.Single(read.Utc));
        Assert.True(read.Kinds.SequenceEqual([MilestoneKind.Gap, MilestoneKind.Alarm]));
    }

    [Theory]
    [InlineData("")]
    [InlineData("05:61")]
    [InlineData("gap")]
    [InlineData("12")]
    [InlineData("05:00,")]
    [InlineData("-1:00")]
    public void Anything_else_is_refused_with_the_grammar(string text)
    {
        Assert.False(ReplayMoments.Read(text, "--text").Try(out _, out ParseError? error));
        Assert.Contains("marks, nudges, gaps, alarms", error.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("80x24", 80, 24)]
    [InlineData("500x200", 500, 200)]
    public void A_size_is_columns_and_rows(string text, int columns, int rows)
    {
        Assert.True(ScreenSize.Read(text, "--size").Try(out ScreenSize size, out _));
        Assert.Equal(new ScreenSize(columns, rows), size);
    }

    [Theory]
    [InlineData("80")]
    [InlineData("80x")]
    [InlineData("19x24")]
    [InlineData("80x201")]
    [InlineData("-80x24")]
    [InlineData("80x24x3")]
    public void A_size_that_is_none_is_refused(string text) => Assert.False(ScreenSize.Read(text, "--size").Try(out _, out _));
}
