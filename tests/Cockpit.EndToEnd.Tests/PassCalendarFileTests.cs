using Cockpit.Commands;
using Ical.Net;

namespace Cockpit.EndToEnd.Tests;

public sealed class PassCalendarFileTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-calendar-");

    [Fact]
    public async Task The_calendar_holds_the_passes_that_can_be_heard_and_replaces_an_older_one()
    {
        string file = Path.Combine(_folder.FullName, "passes.ics");
        await File.WriteAllTextAsync(file, "an older calendar");
        (int code, string error) = await RunAsync(file);
        Assert.Equal((0, ""), (code, error));
        Calendar calendar = Calendar.Load(await File.ReadAllTextAsync(file))!;
        Assert.Equal(2, calendar.Events.Count);
        Assert.All(calendar.Events, one => Assert.Equal("-PT45M", Assert.Single(one.Alarms).Trigger!.Duration!.Value.ToString()));
        Assert.Equal([file], Directory.GetFiles(_folder.FullName));
    }

    [Fact]
    public async Task A_calendar_that_cannot_be_written_is_told_in_one_sentence_and_fails()
    {
        (int code, string error) = await RunAsync(Path.Combine(_folder.FullName, "missing", "passes.ics"));
        Assert.Equal(1, code);
        Assert.Contains("the calendar cannot be written", Assert.Single(error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static async Task<(int Code, string Error)> RunAsync(string file)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        string elements = Path.Combine(AppContext.BaseDirectory, "data", "reference", "satellites.tle");
        int code = await CommandRoot.RunAsync(
            ["passes", "--elements", elements, "--station", "47.8,11.2,520", "--from", "2026-11-25T00:00:00Z", "--for", "3h", "--ics", file, "--alarm", "45m"], output, error);
        return (code, error.ToString());
    }
}
