using System.Globalization;
using System.Text.Json;
using Cockpit.EndToEnd.Tests.Browser;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>What must hold for the phone's page in every state, at every size and in every colour.</summary>
internal static class PhoneLook
{
    /// <summary>At 390 pixels width one is about 0.17 mm: letters of 28 are 4.7 mm, 23 arc minutes at 0.7 m.</summary>
    private const double SmallestLetter = 28.0;

    /// <summary>14 mm, for a thumb in a glove; the choices need no hurry.</summary>
    private const double Thumb = 83.5;
    private const double OtherButton = 56.0;

    /// <summary>WCAG 2.2, 1.4.3 for letters this large.</summary>
    private const double LeastContrast = 3.0;

    /// <summary>By day nothing is grey.</summary>
    private const double DayContrast = 20.0;

    private const string Measure =
        """
        window.look=()=>{
        const luminance=c=>{const [r,g,b]=c.match(/[\d.]+/g).map(Number).map(v=>v/255).map(v=>v<=.04045?v/12.92:((v+.055)/1.055)**2.4);return .2126*r+.7152*g+.0722*b};
        const contrast=(a,b)=>{const [x,y]=[luminance(a),luminance(b)].sort((p,q)=>q-p);return (x+.05)/(y+.05)};
        const paper=getComputedStyle(document.body).backgroundColor;
        const paperOf=e=>{for(;e;e=e.parentElement){const c=getComputedStyle(e).backgroundColor;if(!/^rgba.*, 0\)$/.test(c))return c}return paper};
        const parts=[...document.querySelectorAll('h1,p,span,button,#picture')].filter(e=>e.getClientRects().length&&getComputedStyle(e).visibility!=='hidden'&&(e.id==='picture'||e.textContent.trim()!==''));
        const bad=[];let letter=999,least=99,thumb=999;
        for(const e of parts){
          const r=e.getBoundingClientRect(),name=e.id||e.textContent;
          if(r.right>innerWidth+.5||r.bottom>innerHeight+.5||r.left<-.5||r.top<-.5)bad.push(name+' is cut off');
          if(e.id!=='picture'&&e.clientWidth&&e.scrollWidth>e.clientWidth+1)bad.push(name+' is too wide');
          for(const f of parts){
            if(e.contains(f)||f.contains(e)||!(e.compareDocumentPosition(f)&4))continue;
            const q=f.getBoundingClientRect();
            if(Math.min(r.right,q.right)-Math.max(r.left,q.left)>1&&Math.min(r.bottom,q.bottom)-Math.max(r.top,q.top)>1)bad.push(name+' lies over '+(f.id||f.textContent));
          }
          if(e.id==='picture')continue;
          const s=getComputedStyle(e);
          letter=Math.min(letter,parseFloat(s.fontSize));
          least=Math.min(least,contrast(s.color,paperOf(e)));
          if(e.tagName==='BUTTON'){const size=Math.min(r.width,r.height);if(e.dataset.press||e.id==='go')thumb=Math.min(thumb,size);else if(size<OTHER)bad.push(name+' is too small: '+size)}
        }
        const shapes=[...document.querySelectorAll('.shape')].filter(e=>e.getClientRects().length);
        for(const e of shapes){const s=getComputedStyle(e);least=Math.min(least,contrast(s.fill==='none'?s.stroke:s.fill,paper))}
        const picture=document.querySelector('#picture').getBoundingClientRect();
        return {state:document.body.dataset.state,bad,letter,contrast:least,thumb,paper:luminance(paper),shapes:shapes.map(e=>e.id+(e.classList.contains('hollow')?' hollow':'')).join('+'),
          picture:Math.min(picture.width,picture.height),word:parseFloat(getComputedStyle(document.querySelector('#word')).fontSize),
          scrolls:document.documentElement.scrollHeight>innerHeight||document.documentElement.scrollWidth>innerWidth}
        }
        """;

    /// <summary>Teaches the page to look at itself.</summary>
    public static async Task TeachAsync(BrowserPage page) => await page.EvaluateAsync(Measure.Replace("OTHER", OtherButton.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal) + ";0");

    /// <summary>Holds what is to be seen to the rules, in each of some colours.</summary>
    /// <param name="page">The page.</param>
    /// <param name="before">What brings it about, JavaScript.</param>
    /// <param name="colours">Look and step of each.</param>
    /// <param name="where">In words, for the complaint.</param>
    /// <returns>What was found in each.</returns>
    public static async Task<JsonElement[]> HoldAsync(BrowserPage page, string before, (string Look, string Step)[] colours, string where)
    {
        string each = JsonSerializer.Serialize(colours.Select(c => new[] { c.Look, c.Step }));
        JsonElement[] all = [.. (await page.EvaluateAsync(
            $"(()=>{{const all=[];for(const [look,step] of {each}){{document.body.dataset.look=look;document.body.dataset.step=step;{before};draw();all.push(window.look())}}return all}})()")).EnumerateArray()];
        Assert.Equal(colours.Length, all.Length);
        foreach (((string look, string step), JsonElement found) in colours.Zip(all))
        {
            Hold(found, look, $"{where}, {look} {step}: {found}");
        }

        return all;
    }

    private static void Hold(JsonElement found, string look, string told)
    {
        Assert.True(found.GetProperty("bad").GetArrayLength() == 0, "something is cut off or covered " + told);
        Assert.False(found.GetProperty("scrolls").GetBoolean(), "it scrolls " + told);
        Assert.True(found.GetProperty("letter").GetDouble() >= SmallestLetter, "letters too small " + told);
        Assert.True(found.GetProperty("contrast").GetDouble() >= (look == "night" ? LeastContrast : DayContrast), "too little contrast " + told);
        Assert.True(found.GetProperty("thumb").GetDouble() >= Thumb, "a button too small for a glove " + told);
        double paper = found.GetProperty("paper").GetDouble();
        Assert.True(look == "day" ? paper > 0.9 : paper < 0.001, "wrong paper " + told);
    }
}
