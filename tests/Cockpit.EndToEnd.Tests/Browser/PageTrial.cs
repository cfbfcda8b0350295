using System.Globalization;
using System.Text.Json;

namespace Cockpit.EndToEnd.Tests.Browser;

/// <summary>What must hold for every page that the program writes or serves, at every size and in both colours.</summary>
internal static class PageTrial
{
    // Letters under nine pixels are a guess on a phone; contrast by WCAG 2.2, 1.4.3.
    private const double SmallestLetter = 8.9;
    private const double LeastContrast = 4.5;

    private const string Measure =
        """
        (()=>{
        const seen=e=>{const r=e.getBoundingClientRect();return r.width>0&&r.height>0};
        const luminance=c=>{const [r,g,b]=c.match(/[\d.]+/g).map(Number).map(v=>v/255).map(v=>v<=.04045?v/12.92:((v+.055)/1.055)**2.4);return .2126*r+.7152*g+.0722*b};
        const contrast=(a,b)=>{const [x,y]=[luminance(a),luminance(b)].sort((p,q)=>q-p);return (x+.05)/(y+.05)};
        const paper=getComputedStyle(document.body).backgroundColor;
        const texts=[...document.querySelectorAll('svg text')].filter(seen);
        const words=[...document.querySelectorAll('h1,h2,p,li,dt,dd,small,td,th,figcaption,footer')].filter(seen);
        const outside=[...document.querySelectorAll('main *')].filter(e=>seen(e)&&!e.closest('.scroll table')&&!e.closest('svg *')&&e.getBoundingClientRect().right>innerWidth+0.5);
        return {
          wide:document.documentElement.scrollWidth, window:innerWidth,
          outside:outside.slice(0,3).map(e=>e.outerHTML.slice(0,120)),
          letter:Math.min(99,...texts.map(t=>parseFloat(getComputedStyle(t).fontSize)*t.getScreenCTM().a)),
          contrast:Math.min(99,...texts.map(t=>contrast(getComputedStyle(t).fill,paper)),...words.map(w=>contrast(getComputedStyle(w).color,paper))),
          paper:luminance(paper),
          pictures:[...document.querySelectorAll('svg[role=img]')].filter(seen).length,
          scripts:document.scripts.length,
          unnamed:[...document.querySelectorAll('svg[role=img]')].filter(s=>!s.querySelector('title')||!s.querySelector('desc')).length};
        })()
        """;

    /// <summary>Opens a page and holds it to the rules.</summary>
    /// <returns>How many pictures are to be seen.</returns>
    public static async Task<int> HoldAsync(BrowserPage page, Uri address, int width, bool dark)
    {
        await page.LookAsync(width, 900, dark);
        await page.GoAsync(address);
        JsonElement found = await page.EvaluateAsync(Measure);
        string told = string.Create(CultureInfo.InvariantCulture, $"at {width}, {(dark ? "dark" : "light")}: {found}");
        Assert.True(found.GetProperty("wide").GetInt32() <= width && found.GetProperty("outside").GetArrayLength() == 0, "scrolls sideways " + told);
        Assert.Equal(width, found.GetProperty("window").GetInt32());
        Assert.True(found.GetProperty("letter").GetDouble() >= SmallestLetter, "letters too small " + told);
        Assert.True(found.GetProperty("contrast").GetDouble() >= LeastContrast, "too little contrast " + told);
        Assert.True(dark ? found.GetProperty("paper").GetDouble() < 0.05 : found.GetProperty("paper").GetDouble() > 0.9, "wrong paper " + told);
        Assert.True(found.GetProperty("unnamed").GetInt32() == 0, "a picture without words " + told);
        Assert.Empty(page.Complaints);
        Assert.All(page.Requests, request => Assert.Equal(address.AbsoluteUri, request));
        Assert.Single(page.Requests);
        return found.GetProperty("pictures").GetInt32();
    }
}
