using Cockpit.Commands;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Commands;

/// <summary>A skyline taught by keys and by lines.</summary>
public sealed class SkylineLessonTests
{
    [Fact]
    public void Arrow_keys_pan_and_tilt_and_Enter_takes_the_point()
    {
        SkylineLesson lesson = Keys(new SkylineLesson(0.0), "Right", "Right", "Up", "Up", "Up", "Enter", "Left", "Left", "Left", "Down", "Enter");
        Assert.Equal("10:3,355:2", lesson.Text);
        Assert.Equal("10:3", Keys(lesson, "Left", "Backspace").Text);
        Assert.Equal("", Keys(lesson, "Backspace", "Backspace").Text);
    }

    [Fact]
    public void Numbers_are_typed_and_mistyped_ones_told()
    {
        SkylineLesson lesson = Keys(new SkylineLesson(0.0), "1", "2", "0", " ", "8", ".", "5", "Enter");
        Assert.Equal(("120:8.5", "taken: azimuth 120, elevation 8.5"), (lesson.Text, lesson.Note));
        Assert.Equal("'1' is not an azimuth and an elevation in degrees; write them like 200 12", Keys(lesson, "1", "Enter").Note);
        Assert.Equal("an azimuth goes from 0 to 360 and an elevation from -10 to 80 degrees", Keys(lesson, "1", " ", "9", "9", "Enter").Note);
        Assert.Equal("taken: azimuth 120, elevation 9, in place of 8.5", lesson.Line("120 9").Note);
        Assert.Equal("1", Keys(lesson, "1", "2", "Backspace").Typed);
    }

    [Fact]
    public void The_last_point_is_taken_back_and_nothing_is_kept_without_one()
    {
        SkylineLesson lesson = new SkylineLesson(0.0).Line("10 3").Line("20:4").Line("undo");
        Assert.Equal("10:3", lesson.Text);
        Assert.Equal(LessonState.Kept, lesson.Press("s").State);
        SkylineLesson none = lesson.Line("undo").Press("S");
        Assert.Equal((LessonState.Open, "there is no point to keep yet"), (none.State, none.Note));
        Assert.Equal(LessonState.Left, none.Line("quit").State);
    }

    [Fact]
    public void What_a_compass_reads_is_kept_true_and_read_back_the_same()
    {
        SkylineLesson lesson = new SkylineLesson(4.3).Line("358 12").Line("90 5");
        Assert.Equal("2.3:12,94.3:5", lesson.Text);
        SkylineLesson again = new SkylineLesson(4.3).From(lesson.Mask!);
        Assert.Equal(lesson.Points, again.Points);
        Assert.Equal("2.3:12,94.3:5,184.3:9", again.Line("180 9").Text);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_drawing_shows_where_it_is_high_and_where_the_dish_is(bool unicode)
    {
        DrawingSigns signs = unicode ? DrawingSigns.Unicode : DrawingSigns.Ascii;
        HorizonMask mask = new([new(Angle.Zero, Angle.Zero), new(Angle.FromDegrees(90), Angle.FromDegrees(24)), new(Angle.FromDegrees(180), Angle.Zero)]);
        string[] lines = [.. new SkylineDrawing(signs).Lines(mask, Angle.FromDegrees(90))];
        Assert.Equal(9, lines.Length);
        Assert.All(lines, line => Assert.InRange(line.Length, 0, 79));
        Assert.Equal(4 + 18, lines[^1].IndexOf(signs.Here, StringComparison.Ordinal));
        int highest = Array.FindIndex(lines, line => line.Length > 4 && line[4..].Trim().Length > 0);
        Assert.InRange(lines[highest].TrimEnd().Length, 4 + 18, 4 + 24);
        Assert.Equal(signs.Columns[^1], lines[5][4 + 18]);
        Assert.Equal(' ', lines[5].PadRight(80)[4 + 54]);
    }

    private static SkylineLesson Keys(SkylineLesson lesson, params string[] keys) => keys.Aggregate(lesson, (now, key) => now.Press(key));
}
