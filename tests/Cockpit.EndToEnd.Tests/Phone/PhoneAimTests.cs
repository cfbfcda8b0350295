using System.Globalization;
using System.Text.Json;
using Cockpit.EndToEnd.Tests.Browser;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;
using SkiaSharp;
using Xunit.Abstractions;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>The arrow on the page points where the dish must go, however the phone is strapped and its picture turned.</summary>
[Collection(BrowserTests.Name)]
public sealed class PhoneAimTests(BrowserFixture fixture, ITestOutputHelper output)
{
    private const double Tolerance = 1.0;

    // From the geometry that was drawn, not from the number that came: two points of the shape on the axis of its symmetry, in pixels of the page.
    private const string DrawnArrow =
        """
        (()=>{
        const shape=['arrow','side'].map(i=>document.getElementById(i)).find(e=>e.getClientRects().length);
        if(!shape||!guidance||guidance.arrow===null)return null;
        const to=shape.getScreenCTM(),at=y=>new DOMPoint(0,y).matrixTransform(to),tip=at(-80),tail=at(0);
        return {drawn:(Math.atan2(tip.x-tail.x,tail.y-tip.y)*180/Math.PI+360)%360,right:guidance.right,up:guidance.up,word:guidance.word,n:guidance.n}
        })()
        """;

    // What the page sounds and how it shakes: pitch and length of each note, and each pattern.
    private const string Ear =
        """
        window.sounded=[];window.shook=[];
        {const make=AudioContext.prototype.createOscillator,shake=navigator.vibrate.bind(navigator);
        AudioContext.prototype.createOscillator=function(){const tone=make.call(this),start=tone.start,stop=tone.stop;let at=0;
          tone.start=t=>{at=t;start.call(tone,t)};tone.stop=t=>{sounded.push([tone.frequency.value,Math.round(1000*(t-at))]);stop.call(tone,t)};return tone};
        navigator.vibrate=p=>{const well=shake(p);if(well)shook.push(p.join(' '));return well}};0
        """;

    private static readonly (int Width, int Height, int Screen, double Roll)[] Ways =
        [(390, 844, 0, 0), (390, 844, 0, 25), (844, 390, 90, -90), (844, 390, 270, 90), (844, 390, 90, -65), (390, 844, 0, 180)];

    [ChromiumFact]
    public async Task The_arrow_is_right_to_one_degree_upright_on_both_sides_and_rolled_and_the_buttons_are_keys()
    {
        await using PhoneSession session = await PhoneSession.StartAsync(home => PhoneSession.Climbing(home, "--phone", "127.0.0.1:0"));
        await using PhoneAtDish phone = await PhoneAtDish.OpenAsync(fixture.Browser);
        await phone.GoAsync(session.Address);
        await phone.Page.EvaluateAsync(Ear);
        await phone.Page.ClickAsync("#go");
        await phone.TurnAsync(PhoneAtDish.Held(214, 38, 0));
        await phone.UntilAsync("guidance!==null&&guidance.arrow!==null&&sensor==='ok'");
        double worst = 0.0;
        foreach ((int width, int height, int screen, double roll) in Ways)
        {
            await phone.ScreenAsync(width, height, screen);
            await phone.TurnAsync(PhoneAtDish.Held(214 + (0.01 * roll), 38, roll));
            double off = await SettledAsync(phone, roll, screen);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"screen {screen}, roll {roll}: drawn {off:0.00} degrees off"));
            worst = Math.Max(worst, off);
        }

        Assert.InRange(worst, 0.0, Tolerance);
        await ItIsPaintedLikeThatAsync(phone);
        await MoveIsHeardAndFeltAsync(phone);
        int before = session.Journal().Count;
        await ThroughTheHorizonAsync(phone);
        await ThumbsAsync(phone);
        await Task.Delay(1300); // the journal is flushed each second
        Hold(phone, [.. session.Journal().Skip(before)]);
        Assert.Empty(phone.Page.Complaints);
    }

    /// <summary>Waits until the arrow has come to rest, and says how far it is off, degrees.</summary>
    private static async Task<double> SettledAsync(PhoneAtDish phone, double roll, int screen)
    {
        double off = double.NaN;
        for (int good = 0, tries = 0; good < 4 && tries < 150; tries++, await Task.Delay(60))
        {
            JsonElement arrow = await phone.Page.EvaluateAsync(DrawnArrow);
            if (arrow.ValueKind != JsonValueKind.Object)
            {
                continue;
            }

            // Right and up as seen from behind the dish; the phone is rolled against them, and its picture against the phone.
            double expected = (Math.Atan2(arrow.GetProperty("right").GetDouble(), arrow.GetProperty("up").GetDouble()) * 180.0 / Math.PI) - roll - screen;
            off = Math.Abs(Math.IEEERemainder(arrow.GetProperty("drawn").GetDouble() - expected, 360.0));
            good = off <= Tolerance ? good + 1 : 0;
        }

        return off;
    }

    /// <summary>The same from the pixels themselves: the arrow's long axis by its second moments.</summary>
    private static async Task ItIsPaintedLikeThatAsync(PhoneAtDish phone)
    {
        await phone.ScreenAsync(390, 844, 0, scale: 2.0);
        await phone.TurnAsync(PhoneAtDish.Held(214, 38, 25));
        double off = double.NaN;
        for (int attempt = 0; attempt < 20 && !(off <= Tolerance); attempt++)
        {
            await phone.UntilAsync("document.querySelector('#arrow').getClientRects().length>0");
            JsonElement box = await phone.Page.EvaluateAsync("(()=>{const r=document.querySelector('#picture').getBoundingClientRect();return [r.x+r.width/2,r.y+r.height/2,Math.min(r.width,r.height)/2]})()");
            JsonElement before = await phone.Page.EvaluateAsync(DrawnArrow);
            using SKBitmap picture = SKBitmap.Decode(await phone.Page.PictureAsync());
            JsonElement after = await phone.Page.EvaluateAsync(DrawnArrow);
            if (before.ValueKind != JsonValueKind.Object || after.ValueKind != JsonValueKind.Object || before.GetProperty("word").GetString() != after.GetProperty("word").GetString())
            {
                continue; // it had become another shape meanwhile
            }

            double painted = LongAxis(picture, 2.0 * box[0].GetDouble(), 2.0 * box[1].GetDouble(), 2.0 * box[2].GetDouble());
            off = Math.Abs(Math.IEEERemainder(painted - before.GetProperty("drawn").GetDouble(), 360.0));
        }

        Assert.InRange(off, 0.0, Tolerance);
    }

    private static double LongAxis(SKBitmap picture, double x, double y, double radius)
    {
        List<(double X, double Y)> lit = [];
        for (int row = (int)(y - radius); row <= y + radius; row++)
        {
            for (int column = (int)(x - radius); column <= x + radius; column++)
            {
                (double dx, double dy) = (column + 0.5 - x, row + 0.5 - y);
                if (Math.Sqrt((dx * dx) + (dy * dy)) < 0.86 * radius && picture.GetPixel(column, row).Red > 110)
                {
                    lit.Add((dx, dy));
                }
            }
        }

        Assert.True(lit.Count > 1000, $"{lit.Count} pixels of an arrow");
        (double mx, double my) = (lit.Average(p => p.X), lit.Average(p => p.Y));
        double xx = lit.Sum(p => (p.X - mx) * (p.X - mx));
        double yy = lit.Sum(p => (p.Y - my) * (p.Y - my));
        double xy = lit.Sum(p => (p.X - mx) * (p.Y - my));
        double axis = 0.5 * Math.Atan2(2.0 * xy, xx - yy);
        (double ux, double uy) = (Math.Cos(axis), Math.Sin(axis));

        // The tip reaches further from the middle than the tail.
        double sign = lit.Max(p => (p.X * ux) + (p.Y * uy)) > -lit.Min(p => (p.X * ux) + (p.Y * uy)) ? 1.0 : -1.0;
        return ((Math.Atan2(sign * ux, -sign * uy) * 180.0 / Math.PI) + 360.0) % 360.0;
    }

    /// <summary>Upright the browser leaves beta out: the direction must stay right.</summary>
    private static async Task ThroughTheHorizonAsync(PhoneAtDish phone)
    {
        for (int i = 0; i < 40 || (i < 400 && Missing(phone) == 0); i++)
        {
            // To and fro, because a phone that hardly moves sends nothing.
            await phone.TurnAsync(PhoneAtDish.Held(150 + (i % 2), 0.01 * ((i % 3) - 1), 0));
            await Task.Delay(15);
        }

        for (int i = -20; i <= 20; i++)
        {
            await phone.TurnAsync(PhoneAtDish.Held(150 + Math.Abs(i % 2), 0.05 * i, 0));
            await Task.Delay(30);
        }
    }

    /// <summary>How many orientations went out without beta.</summary>
    private static int Missing(PhoneAtDish phone) => phone.Page.Frames.Count(frame => frame.Sent && frame.Text.Contains("\"b\":null", StringComparison.Ordinal));

    private static async Task ThumbsAsync(PhoneAtDish phone)
    {
        foreach (string button in (string[])["moved", "notmoved", "peaked"])
        {
            await phone.UntilAsync($"document.querySelector('#{button}').classList.contains('offered')");
            await phone.Page.ClickAsync("#" + button);
            await Task.Delay(100);
        }
    }

    /// <summary>The word for a move has the very notes of the program's own voice, and its pattern for the hand.</summary>
    private static async Task MoveIsHeardAndFeltAsync(PhoneAtDish phone)
    {
        await phone.UntilAsync("['60 90 250','250 90 60','60 60 60 60 60','400'].some(p=>shook.includes(p))");
        JsonElement sounded = await phone.Page.EvaluateAsync("sounded");
        (double Hertz, double Ms)[] heard = [.. sounded.EnumerateArray().Select(n => (n[0].GetDouble(), n[1].GetDouble()))];
        (double Hertz, double Ms)[] word = [];
        foreach (PageFrame frame in phone.Page.Frames.Where(f => !f.Sent))
        {
            using JsonDocument said = JsonDocument.Parse(frame.Text);
            if (said.RootElement.TryGetProperty("cue", out JsonElement cue) && cue.GetString() is "left" or "right" or "up" or "down")
            {
                word = [.. said.RootElement.GetProperty("notes").EnumerateArray().Select(n => (n[2].GetDouble(), n[1].GetDouble()))];
            }
        }

        // Two notes at least, the first of them the reference.
        Assert.True(word.Length >= 2 && word[0].Hertz == 660.0, sounded.ToString());
        Assert.Contains(Enumerable.Range(0, Math.Max(0, heard.Length - word.Length + 1)), at => heard.AsSpan(at, word.Length).SequenceEqual(word));
    }

    private void Hold(PhoneAtDish phone, IReadOnlyList<Envelope> journal)
    {
        int missing = Missing(phone);
        (double Azimuth, double Elevation)[] heard =
        [
            .. journal.Select(e => e.Event).OfType<PointingMeasured>()
                .Where(e => e.Sample.Elevation is { } high && Math.Abs(high.Degrees) < 5.0 && e.Sample.Azimuth is not null)
                .Select(e => (e.Sample.Azimuth!.Value.Degrees, e.Sample.Elevation!.Value.Degrees)),
        ];
        double wide = heard.Max(h => Math.Min(Math.Abs(h.Azimuth - 150.0), Math.Abs(h.Azimuth - 151.0)));
        double high = heard.Max(h => Math.Abs(h.Elevation));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"through the horizon: {missing} without beta, {heard.Length} directions, azimuth off by {wide:0.00} degrees at most, elevation within {high:0.00}"));
        Assert.True(missing > 0 && heard.Length > 10, $"{missing} without beta, {heard.Length} directions");
        Assert.InRange(wide, 0.0, 0.3);
        Assert.InRange(high, 0.0, 1.1);

        // A thumb on the phone is a key of the operator.
        OperatorKey[] pressed = [.. journal.Where(e => string.Equals(e.Source, Sources.Phone, StringComparison.Ordinal)).Select(e => e.Event).OfType<OperatorPressed>().Select(e => e.Key)];
        Assert.Equal([OperatorKey.Moved, OperatorKey.NotMoved, OperatorKey.Peaked], pressed);
    }
}
