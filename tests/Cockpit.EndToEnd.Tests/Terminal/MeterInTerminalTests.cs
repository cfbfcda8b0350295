using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Terminal;

public sealed class MeterInTerminalTests : IDisposable
{
    private readonly string _path = Path.Combine(Path.GetTempPath(), $"cockpit-meter-{Guid.NewGuid():N}.wav");

    public void Dispose() => File.Delete(_path);

    [TerminalTheory]
    [InlineData("C.UTF-8", '▲', '█')]
    [InlineData("C", '^', '#')]
    public async Task Bar_and_spectrum_are_drawn_with_what_the_locale_has_and_Ctrl_C_gives_the_cursor_back(string locale, char here, char full)
    {
        Write(new IqScenario { SampleRate = 1_500_000, Seconds = 1, SnrDb = [new(0, 14)], DopplerHz = [new(0, 40_000)] });
        using TerminalProcess meter = new($"TERM=xterm LC_ALL={locale}", 80, 24, "meter", $"file:{_path}", "--follow");
        
        // A page goes out row by row: all of it has to be there before it is looked at.
        await meter.UntilAsync(
            () => meter.Look(screen => new[] { "split-phase 100 %", "+750 kHz", here.ToString(), full.ToString() }.All(words => screen.Text.Contains(words, StringComparison.Ordinal))), "split-phase 100 % and the spectrum");
        string page = meter.Look(screen => screen.Text);
        Assert.Contains(here, page);
        Assert.Contains(full, page);
        Assert.Contains("+750 kHz", page, StringComparison.Ordinal);
        Assert.Contains("UTC        level   noise    SNR", page, StringComparison.Ordinal);
        await meter.TypeAsync("\x03");
        Assert.Equal(130, await meter.ExitCodeAsync());
        Assert.Contains("\x1b[?25h", meter.Seen[meter.Seen.LastIndexOf("\x1b[?25l", StringComparison.Ordinal)..], StringComparison.Ordinal);
    }

    private void Write(IqScenario scenario)
    {
        using SampleFile file = SampleFile.Create(_path, new SampleLayout(SampleFormat.Ci16Le, scenario.SampleRate, CentreHz: scenario.CentreHz));
        IqGenerator generator = new(scenario);
        float[] i = new float[100_000], q = new float[100_000];
        byte[] bytes = new byte[4 * i.Length];
        while (generator.Next(i, q) is > 0 and int count)
        {
            SampleWriter.Write(SampleFormat.Ci16Le, i.AsSpan(0, count), q.AsSpan(0, count), bytes);
            file.Write(bytes.AsSpan(0, 4 * count));
        }

        file.Finish();
    }
}
