using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.EndToEnd.Tests.Browser;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>The page in a browser that believes to be a phone: its sensors are turned by the test.</summary>
internal sealed class PhoneAtDish(BrowserPage page) : IAsyncDisposable
{
    /// <summary>The sensor that has a compass.</summary>
    public const string Absolute = "absolute-orientation";

    /// <summary>The sensor without one.</summary>
    public const string Relative = "relative-orientation";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);

    /// <summary>The page itself.</summary>
    public BrowserPage Page => page;

    /// <summary>Opens a page of the size of a phone, its sensor ready.</summary>
    /// <param name="browser">The browser.</param>
    /// <param name="hasSensor">False: it has none.</param>
    /// <param name="hasRelative">It also has one without a compass.</param>
    public static async Task<PhoneAtDish> OpenAsync(Chromium browser, bool hasSensor = true, bool hasRelative = false)
    {
        PhoneAtDish phone = new(await browser.OpenAsync());
        await phone.ScreenAsync(390, 844, 0);
        await phone.SensorAsync(Absolute, hasSensor);
        if (hasRelative)
        {
            await phone.SensorAsync(Relative, isThere: true);
        }

        return phone;
    }

    /// <summary>Goes to the address and through the browser's own warning, by what a person touches there.</summary>
    public async Task GoAsync(Uri address)
    {
        await page.GoAsync(address);
        await UntilAsync("document.querySelector('#go,#details-button')!==null");
        if (!await IsAsync("document.querySelector('#go')!==null"))
        {
            await UntilAsync("document.querySelector('#details-button')!==null&&document.querySelector('#proceed-link')!==null");
            await page.ClickAsync("#details-button");
            await UntilAsync("document.querySelector('#proceed-link').getBoundingClientRect().height>0");
            await page.ClickAsync("#proceed-link");
            await UntilAsync("document.readyState==='complete'&&document.querySelector('#go')!==null");
            page.Forget();
        }
    }

    /// <summary>Goes there and touches START.</summary>
    public async Task StartAsync(Uri address)
    {
        await GoAsync(address);
        await page.ClickAsync("#go");
    }

    /// <summary>How a phone is turned whose camera looks along the dish.</summary>
    /// <param name="azimuth">Of the dish, degrees.</param>
    /// <param name="elevation">Of the dish, degrees.</param>
    /// <param name="roll">How far it is rolled, degrees clockwise as seen from behind.</param>
    public static Attitude Held(double azimuth, double elevation, double roll) => Attitude.FromScreenFrame(
        Attitude.FromDeviceAngles(Angle.FromDegrees(-azimuth), Angle.FromDegrees(90.0 + elevation), Angle.FromDegrees(0.0)), Angle.FromDegrees(-roll));

    /// <summary>Turns the phone. Its sensor has single precision, as real ones have.</summary>
    public async Task TurnAsync(Attitude attitude, string sensor = Absolute) => await page.SendAsync("Emulation.setSensorOverrideReadings", new JsonObject
    {
        ["type"] = sensor,
        ["reading"] = new JsonObject { ["quaternion"] = new JsonObject { ["x"] = (float)attitude.X, ["y"] = (float)attitude.Y, ["z"] = (float)attitude.Z, ["w"] = (float)attitude.W } },
    });

    /// <summary>Turns the picture: 0 upright, 90 and 270 on its sides.</summary>
    public async Task ScreenAsync(int width, int height, int angle, double scale = 1.0) => await page.SendAsync("Emulation.setDeviceMetricsOverride", new JsonObject
    {
        ["width"] = width, ["height"] = height, ["deviceScaleFactor"] = scale, ["mobile"] = true,
        ["screenOrientation"] = new JsonObject { ["type"] = angle switch { 90 => "landscapePrimary", 270 => "landscapeSecondary", _ => "portraitPrimary" }, ["angle"] = angle },
    });

    /// <summary>Waits for the state that the page shows.</summary>
    public Task ShowsAsync(params string[] states) => UntilAsync($"document.body.dataset.screen==='aim'&&{JsonSerializer.Serialize(states)}.includes(document.body.dataset.state)");

    /// <summary>Waits until something is true on the page.</summary>
    public async Task UntilAsync(string condition)
    {
        for (long begun = Stopwatch.GetTimestamp(); !await IsAsync(condition); await Task.Delay(20))
        {
            if (Stopwatch.GetElapsedTime(begun) > Patience)
            {
                throw new InvalidOperationException($"the page never came to {condition}; it is at {await page.EvaluateAsync("location.href+': '+document.body.dataset.screen+', '+document.body.dataset.state+': '+document.body.innerText")}; {string.Join("; ", page.Complaints)}");
            }
        }
    }

    /// <summary>Whether something is true on the page now.</summary>
    public async Task<bool> IsAsync(string condition) => (await page.EvaluateAsync($"Boolean({condition})")).GetBoolean();

    private async Task SensorAsync(string type, bool isThere) => await page.SendAsync("Emulation.setSensorOverrideEnabled", new JsonObject
    {
        ["enabled"] = true, ["type"] = type, ["metadata"] = new JsonObject { ["available"] = isThere, ["minimumFrequency"] = 1, ["maximumFrequency"] = 60 },
    });

    public ValueTask DisposeAsync() => page.DisposeAsync();
}
