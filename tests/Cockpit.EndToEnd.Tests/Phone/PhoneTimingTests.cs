using System.Globalization;
using System.Text.Json;
using Cockpit.EndToEnd.Tests.Browser;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;
using Xunit.Abstractions;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>How long it takes from the phone to the program and back to the eye.</summary>
[Collection(BrowserTests.Name)]
public sealed class PhoneTimingTests(BrowserFixture fixture, ITestOutputHelper output)
{
    // On a machine that builds and tests at the same time; the figures themselves are printed.
    private const double MostMedianMs = 100.0;
    private const double MostMs = 600.0;

    [ChromiumFact]
    public async Task An_orientation_is_in_the_journal_and_guidance_is_drawn_within_a_moment()
    {
        // Without --at the session's clock is that of the computer, as the browser's is.
        await using PhoneSession session = await PhoneSession.StartAsync(home =>
        {
            string file = Path.Combine(home.Folder, "elements.kvn");
            File.WriteAllText(file, MadeElements.Of(TimeProvider.System.GetUtcNow()));
            return ["live", "--elements", file, "--station", "47.8,11.2,520", "--sessions", home.Sessions, "--sound", "off", "--plain", "--measure", "--phone", "127.0.0.1:0"];
        });
        await using PhoneAtDish phone = await PhoneAtDish.OpenAsync(fixture.Browser);
        await phone.StartAsync(session.Address);
        await phone.TurnAsync(PhoneAtDish.Held(100, 30, 0));
        await phone.UntilAsync("guidance!==null&&sensor==='ok'");

        // A phone in the hand is never still: sixty events a second. The page notes when each was fired, by the computer's clock; each has an azimuth of its own.
        await phone.Page.EvaluateAsync("window.fired=[];addEventListener('deviceorientationabsolute',e=>fired.push([performance.timeOrigin+e.timeStamp,e.alpha]))");
        for (int i = 0; i < 500; i++)
        {
            await phone.TurnAsync(PhoneAtDish.Held(100 + (0.4 * i), 30, 0));
            await Task.Delay(7);
        }

        await Task.Delay(1300);
        for (int i = 0; i < 100 && Drawn(phone.Page.Frames).Count <= 30; i++)
        {
            await Task.Delay(100);
        }

        JsonElement fired = await phone.Page.EvaluateAsync("fired");
        Dictionary<double, DateTimeOffset> heard = [];
        foreach (Envelope envelope in session.Journal())
        {
            if (envelope.Event is PointingMeasured { Sample.Azimuth: { } azimuth })
            {
                heard.TryAdd(Math.Round(azimuth.Degrees, 1), envelope.Utc);
            }
        }

        List<double> up = [];
        foreach (JsonElement one in fired.EnumerateArray())
        {
            double azimuth = Math.Round((360.0 - one[1].GetDouble()) % 360.0, 1);
            if (heard.TryGetValue(azimuth, out DateTimeOffset at))
            {
                up.Add((at - DateTimeOffset.UnixEpoch).TotalMilliseconds - one[0].GetDouble());
            }
        }

        List<double> down = Drawn(phone.Page.Frames);
        Assert.True(up.Count > 60 && down.Count > 20, $"{fired.GetArrayLength()} events, {heard.Count} directions heard, {up.Count} matched, {down.Count} drawn");
        Tell("orientation event in the page -> journal", up);
        Tell("of it in the page, told as its age", [.. session.Journal().Select(e => e.Event).OfType<PointingMeasured>().Where(e => e.Age is not null).Select(e => e.Age!.Value.TotalMilliseconds)]);
        Tell("guidance in the page -> drawn", down);
        await session.EndAsync();
        output.WriteLine("guidance in the program -> drawn: " + await session.SaidAsync(line => line.StartsWith("sent to the phone", StringComparison.Ordinal)));
    }

    /// <summary>From the frame that brought guidance to the one that says it was painted, ms.</summary>
    private static List<double> Drawn(IReadOnlyCollection<PageFrame> frames)
    {
        Dictionary<long, double> came = [];
        List<double> taken = [];
        foreach (PageFrame frame in frames)
        {
            using JsonDocument message = JsonDocument.Parse(frame.Text);
            string? kind = message.RootElement.GetProperty("t").GetString();
            if (!frame.Sent && kind == "g")
            {
                came[message.RootElement.GetProperty("n").GetInt64()] = frame.At;
            }
            else if (frame.Sent && kind == "drawn" && came.TryGetValue(message.RootElement.GetProperty("n").GetInt64(), out double at))
            {
                taken.Add(1000.0 * (frame.At - at));
            }
        }

        return taken;
    }

    private void Tell(string what, List<double> ms)
    {
        ms.Sort();
        double At(double share) => ms[(int)Math.Min(ms.Count - 1, Math.Floor(share * ms.Count))];
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: p50 {At(0.5):0.0} ms, p95 {At(0.95):0.0} ms, p99 {At(0.99):0.0} ms, max {ms[^1]:0.0} ms, n {ms.Count}"));
        Assert.True(ms[0] > -2.0, $"{what}: {ms[0]} ms is before its cause");
        Assert.True(At(0.5) < MostMedianMs && At(0.99) < MostMs, $"{what}: p50 {At(0.5)}, p99 {At(0.99)} ms");
    }
}
