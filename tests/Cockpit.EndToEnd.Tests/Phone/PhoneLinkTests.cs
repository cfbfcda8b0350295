using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cockpit.EndToEnd.Tests.Browser;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;
using Xunit.Abstractions;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>What happens to the link between phone and program in the field, and what either says of it.</summary>
[Collection(BrowserTests.Name)]
public sealed class PhoneLinkTests(BrowserFixture fixture, ITestOutputHelper output)
{
    // Notes when the page changes what it shows, by its own clock, and how old the guidance was that was last to be seen.
    private const string Witness =
        "window.seen=[];new MutationObserver(()=>seen.push([document.body.dataset.state,performance.now(),performance.now()-arrived])).observe(document.body,{attributes:true,attributeFilter:['data-state']})";

    [ChromiumFact]
    public async Task The_link_outlives_a_page_hidden_frozen_and_offline_and_a_program_started_again()
    {
        using CockpitProcess home = new();
        string address = string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{PeerProcess.FreePort()}");
        PhoneSession session = await PhoneSession.StartAsync(h => PhoneSession.Climbing(h, "--phone", address), home);
        try
        {
            await using PhoneAtDish phone = await PhoneAtDish.OpenAsync(fixture.Browser);
            await phone.StartAsync(session.Address);
            await phone.TurnAsync(PhoneAtDish.Held(200, 30, 0));
            await session.SaysAsync("phone:good");
            await phone.Page.EvaluateAsync(Witness);

            await HiddenAsync(session, phone);
            await FrozenAsync(session, phone);
            await OfflineAsync(session, phone);

            await session.DisposeAsync();
            await phone.ShowsAsync("NO LINK");
            session = await PhoneSession.StartAsync(h => PhoneSession.Climbing(h, "--phone", address), home);
            long begun = Stopwatch.GetTimestamp();
            await phone.UntilAsync("document.body.dataset.state!=='NO LINK'");
            Tell($"program started again: guidance {Stopwatch.GetElapsedTime(begun).TotalSeconds:0.0} s after it said its address");
            await session.SaysAsync("phone:good");
        }
        finally
        {
            await session.DisposeAsync();
        }
    }

    private async Task HiddenAsync(PhoneSession session, PhoneAtDish phone)
    {
        int lines = session.Said;
        await using (await fixture.Browser.OpenAsync())
        {
            await phone.UntilAsync("document.hidden");
            Tell("hidden: " + await session.SaysAsync("not in front", lines));
            int before = Orientations(phone);
            await Task.Delay(700);
            Assert.Equal(before, Orientations(phone));
        }

        await phone.Page.ShowAsync();
        await phone.UntilAsync("!document.hidden");

        await HeardAgainAsync(session, phone);
    }

    /// <summary>Held by a person a phone is never quite still; an emulated one is, and a browser may then begin without a first event.</summary>
    private static async Task HeardAgainAsync(PhoneSession session, PhoneAtDish phone)
    {
        Task<string> said = session.SaysAsync("phone:good");
        for (int i = 1; !said.IsCompleted; i++)
        {
            await phone.TurnAsync(PhoneAtDish.Held(200, 30 + (0.3 * (i % 2)), 0));
            await Task.WhenAny(said, Task.Delay(250));
        }

        await said;
    }

    private async Task FrozenAsync(PhoneSession session, PhoneAtDish phone)
    {
        int lines = session.Said;
        await phone.Page.SendAsync("Page.setWebLifecycleState", new JsonObject { ["state"] = "frozen" });
        Tell("frozen: " + await session.SaysAsync("not in front", lines));
        await phone.Page.SendAsync("Page.setWebLifecycleState", new JsonObject { ["state"] = "active" });
        await BackInFrontAsync(phone);
        await HeardAgainAsync(session, phone);
        await phone.UntilAsync("document.body.dataset.state!=='NO LINK'");

        // A phone that is busy with itself says nothing at all.
        lines = session.Said;
        Task<JsonElement> busy = phone.Page.EvaluateAsync("(()=>{const until=performance.now()+2500;while(performance.now()<until);})()");
        Tell("busy: " + await session.SaysAsync("asleep", lines));
        await busy;
        await session.SaysAsync("phone:good");
    }

    /// <summary>A page that was frozen stays hidden until another one was in front.</summary>
    private async Task BackInFrontAsync(PhoneAtDish phone)
    {
        await using (await fixture.Browser.OpenAsync())
        {
        }

        await phone.Page.ShowAsync();
        await phone.UntilAsync("!document.hidden");
    }

    private async Task OfflineAsync(PhoneSession session, PhoneAtDish phone)
    {
        await phone.Page.EvaluateAsync("seen.length=0");
        int lines = session.Said;
        await NetworkAsync(phone, offline: true);
        Tell("offline: " + await session.SaysAsync("asleep", lines));
        await phone.ShowsAsync("NO LINK");
        await Task.Delay(4000);
        await NetworkAsync(phone, offline: false);
        long begun = Stopwatch.GetTimestamp();
        await phone.UntilAsync("document.body.dataset.state!=='NO LINK'");
        Tell($"offline for 5 s: guidance again after {Stopwatch.GetElapsedTime(begun).TotalSeconds:0.0} s");
        await session.SaysAsync("phone:good");
        JsonElement seen = await phone.Page.EvaluateAsync("seen.filter(s=>s[0]==='NO LINK')");
        double age = seen[0][2].GetDouble();
        Tell($"guidance was {age:0} ms old when it was taken off the page");
        Assert.InRange(age, 1000.0, 1500.0);
    }

    [ChromiumFact]
    public async Task A_code_pairs_once_and_a_phone_that_takes_over_is_the_only_one()
    {
        await using PhoneSession session = await PhoneSession.StartAsync(home => PhoneSession.Climbing(home, "--phone", "127.0.0.1:0"));
        await using PhoneAtDish first = await PhoneAtDish.OpenAsync(fixture.Browser, hasRelative: true);
        await first.StartAsync(session.Address);
        await first.UntilAsync("link.open");
        await TheKindWithoutCompassComesOftenerAsync(first);
        await using PhoneAtDish second = await PhoneAtDish.OpenAsync(fixture.Browser);
        await second.StartAsync(session.Address);
        await second.UntilAsync("document.body.dataset.screen==='start'&&document.querySelector('#trouble').textContent.includes('Scan the code')");

        await first.Page.ShowAsync();
        string key = (await first.Page.EvaluateAsync("link.key")).GetString()!;
        Assert.True(await first.IsAsync("link.open"));
        await second.Page.ShowAsync();
        await TakeKeyAsync(first, second);
        await second.Page.ClickAsync("#go");
        await second.UntilAsync("link.open&&guidance!==null");
        await first.Page.ShowAsync();
        await first.ShowsAsync("OTHER PHONE");
        await Task.Delay(2500);
        await first.ShowsAsync("OTHER PHONE");
        Assert.True(await second.IsAsync("link.open"));

        // The one that counts is stopped.
        await second.Page.ShowAsync();
        await second.Page.ClickAsync("#menu");
        await second.Page.ClickAsync("#stop");
        Tell("stopped: " + await session.SaysAsync("stopped on the phone"));
        Assert.True(await second.IsAsync("document.body.dataset.screen==='start'"));
        Assert.DoesNotContain(session.Files(), file => file.Text.Contains(key, StringComparison.Ordinal) || file.Text.Contains(session.Address.Segments[1].TrimEnd('/'), StringComparison.Ordinal));
    }

    // The sockets fail as they do on a phone that wants none to a certificate that was accepted by hand.
    [ChromiumFact]
    public async Task Where_no_socket_opens_requests_and_server_sent_events_do_the_same()
    {
        await using PhoneSession session = await PhoneSession.StartAsync(home => PhoneSession.Climbing(home, "--phone", "127.0.0.1:0"));
        await using PhoneAtDish phone = await PhoneAtDish.OpenAsync(fixture.Browser);
        await phone.GoAsync(session.Address);
        await phone.Page.EvaluateAsync("window.WebSocket=class{constructor(){setTimeout(()=>this.onclose({code:1006}),20)}close(){}};0");
        await phone.Page.ClickAsync("#go");
        await phone.UntilAsync("link.way==='post'&&guidance!==null");
        await phone.TurnAsync(PhoneAtDish.Held(231, 12, 0));
        await session.SaysAsync("phone:good");
        await phone.UntilAsync("document.querySelector('#moved').classList.contains('offered')");
        await phone.Page.ClickAsync("#moved");
        await Task.Delay(1300);
        Assert.Empty(phone.Page.Frames);
        Assert.Contains(session.Journal(), e => e.Event is PointingMeasured { Sample.Azimuth: { } azimuth } && Math.Abs(azimuth.Degrees - 231.0) < 0.3);
        Assert.Contains(session.Journal(), e => e.Event is OperatorPressed { Key: OperatorKey.Moved });
    }

    [ChromiumFact]
    public async Task A_phone_without_sensor_or_permission_says_so_and_still_shows_the_guidance()
    {
        await using PhoneSession session = await PhoneSession.StartAsync(home => PhoneSession.Climbing(home, "--phone", "127.0.0.1:0"));
        await using PhoneAtDish blind = await PhoneAtDish.OpenAsync(fixture.Browser, hasSensor: false);
        await blind.StartAsync(session.Address);
        Tell("no sensor: " + await session.SaysAsync("tells no orientation"));
        await blind.UntilAsync("sensor==='none'&&guidance!==null&&document.body.dataset.state!=='NO LINK'");

        await using PhoneAtDish denied = await PhoneAtDish.OpenAsync(fixture.Browser);
        await denied.GoAsync(session.Address);
        foreach (string name in (string[])["accelerometer", "gyroscope", "magnetometer"])
        {
            await fixture.Browser.SendAsync(null, "Browser.setPermission", new JsonObject
            {
                ["permission"] = new JsonObject { ["name"] = name }, ["setting"] = "denied", ["origin"] = session.Address.GetLeftPart(UriPartial.Authority),
            });
        }

        await TakeKeyAsync(blind, denied);
        await denied.Page.ClickAsync("#go");
        Tell("no permission: " + await session.SaysAsync("does not let the page use its sensors"));
        await denied.UntilAsync("sensor==='denied'&&guidance!==null&&document.body.dataset.state!=='NO LINK'");
    }

    /// <summary>Where a phone has both, the kind that no steel disturbs gives the shape, and the compass is told now and then.</summary>
    private static async Task TheKindWithoutCompassComesOftenerAsync(PhoneAtDish phone)
    {
        int before = phone.Page.Frames.Count;
        for (int i = 0; i < 80; i++)
        {
            await phone.TurnAsync(PhoneAtDish.Held(50 + (0.4 * i), 30, 0));
            await phone.TurnAsync(PhoneAtDish.Held(150 + (0.4 * i), 30, 0), PhoneAtDish.Relative);
            await Task.Delay(10);
        }

        string[] sent = [.. phone.Page.Frames.Skip(before).Where(f => f.Sent).Select(f => f.Text)];
        int relative = sent.Count(text => text.Contains("\"rel\"", StringComparison.Ordinal));
        int absolute = sent.Count(text => text.Contains("\"abs\"", StringComparison.Ordinal));
        Assert.True(relative > 2 * absolute && absolute > 1, $"{relative} relative, {absolute} absolute");
    }

    /// <summary>A tab that is doubled takes the key along.</summary>
    private static async Task TakeKeyAsync(PhoneAtDish from, PhoneAtDish to) =>
        await to.Page.EvaluateAsync($"sessionStorage.setItem('cockpit.key:'+place,'{(await from.Page.EvaluateAsync("link.key")).GetString()}')");

    private static int Orientations(PhoneAtDish phone) => phone.Page.Frames.Count(frame => frame.Sent && frame.Text.Contains("\"t\":\"o\"", StringComparison.Ordinal));

    private static async Task NetworkAsync(PhoneAtDish phone, bool offline) => await phone.Page.SendAsync("Network.emulateNetworkConditions", new JsonObject
    {
        ["offline"] = offline, ["latency"] = 0, ["downloadThroughput"] = -1, ["uploadThroughput"] = -1,
    });

    private void Tell(FormattableString line) => output.WriteLine(line.ToString(CultureInfo.InvariantCulture));

    private void Tell(string line) => output.WriteLine(line);
}
