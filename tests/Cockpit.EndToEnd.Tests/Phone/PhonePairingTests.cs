using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Sensing;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Phone;

public sealed class PhonePairingTests
{
    [Fact]
    public async Task A_phone_pairs_by_the_printed_address_its_orientation_and_buttons_are_in_the_journal_and_it_is_shown_the_guidance()
    {
        await using PhoneRun run = await PhoneRun.StartAsync();
        await using PhoneClient phone = await PhoneClient.HelloAsync(run.Page);
        Assert.Equal(25, phone.Key.Length);
        Assert.Equal("BRACKWING 5", phone.Satellite);

        JsonElement guidance = (await phone.HearAsync())!.Value;
        Assert.Equal("g", guidance.GetProperty("t").GetString());
        Assert.Contains(guidance.GetProperty("word").GetString(), new[] { "MOVE", "HOLD", "NEXT", "SEARCH", "WAIT" });
        long number = guidance.GetProperty("n").GetInt64();
        Assert.Equal(number + 1, (await phone.HearAsync())!.Value.GetProperty("n").GetInt64());

        // Upright, the camera 30 degrees up, towards the east: alpha runs against the compass.
        for (int n = 1; n <= 5; n++)
        {
            await phone.SayAsync(string.Create(CultureInfo.InvariantCulture, $$"""{"t":"o","n":{{n}},"kind":"abs","a":{{270 + (0.1 * n)}},"b":120,"g":0,"age":40,"screen":0,"shaking":false}"""));
            await Task.Delay(60);
        }

        await phone.SayAsync("""{"t":"press","key":"peaked","n":1}""");
        await phone.SayAsync("""{"t":"press","key":"peaked","n":1}""");
        await run.UntilAsync("phone:good");
        await phone.SayAsync("""{"t":"bye"}""");
        Recording kept = await run.EndAsync();

        PointingMeasured first = kept.Envelopes.Select(e => e.Event).OfType<PointingMeasured>().First();
        Assert.Equal("phone", first.Feed);
        Assert.Equal(SensorNorth.Magnetic, first.Sample.North);
        Assert.Equal(90.0 - 0.1, first.Sample.Azimuth!.Value.Degrees, tolerance: 0.01);
        Assert.Equal(30.0, first.Sample.Elevation!.Value.Degrees, tolerance: 0.01);
        Assert.Equal(TimeSpan.FromMilliseconds(40), first.Age);
        Envelope pressed = Assert.Single(kept.Envelopes, e => e.Event is OperatorPressed);
        Assert.Equal(("phone", OperatorKey.Peaked), (pressed.Source, ((OperatorPressed)pressed.Event).Key));
        Assert.DoesNotContain(phone.Key, run.JournalText, StringComparison.Ordinal);
        Assert.DoesNotContain(run.Page.AbsolutePath.Trim('/'), run.JournalText, StringComparison.Ordinal);
    }
}
