namespace Cockpit.Reports;

/// <summary>How a page looks: light, dark, printed; wide and narrow.</summary>
internal static class PageStyle
{
    /// <summary>The whole style sheet.</summary>
    public static string Css { get; } =
        """
        :root{color-scheme:light dark;--paper:#fff;--panel:#f6f8fa;--ink:#16191d;--soft:#535b66;--grid:#d9dee4;--edge:#9aa3ae;--good:#cfe3d8;--sea:#edf2f7;--land:#fbfaf6;--coast:#8f99a6;--line:#16508f;--lane:#f0f2f5}
        @media screen and (prefers-color-scheme:dark){:root{--paper:#111418;--panel:#181c21;--ink:#e6e9ed;--soft:#9fa8b4;--grid:#2b3139;--edge:#59626e;--good:#264636;--sea:#161b21;--land:#21272e;--coast:#66717e;--line:#86b6f2;--lane:#1b2026}}
        *{box-sizing:border-box}
        body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,sans-serif;-webkit-text-size-adjust:100%;-webkit-print-color-adjust:exact;print-color-adjust:exact}
        main{max-width:74rem;margin:0 auto;padding:1rem 1rem 3rem}
        h1{font-size:1.7rem;line-height:1.2;margin:0;overflow-wrap:anywhere}h2{font-size:1.05rem;margin:0 0 .15rem}h3{font-size:.95rem;margin:.5rem 0 .1rem}
        .when{margin:.2rem 0 1rem;color:var(--soft);overflow-wrap:anywhere}
        section{margin:1.9rem 0 0}figure{margin:0}
        figcaption{color:var(--soft);font-size:.85rem;margin:0 0 .35rem}
        svg{display:block;width:100%;height:auto}svg.narrow{display:none}
        .figures{display:flex;flex-wrap:wrap;gap:1px;margin:0;background:var(--grid);border:1px solid var(--grid)}
        .figures div{flex:1 1 9rem;background:var(--panel);padding:.55rem .8rem .6rem}
        .figures dt{font-size:.8rem;color:var(--soft)}.figures dd{margin:0;font-size:1.6rem;line-height:1.2;font-weight:600;font-variant-numeric:tabular-nums}
        .figures small{display:block;font-size:.8rem;font-weight:400;line-height:1.35;color:var(--soft)}
        ol.advice{margin:.2rem 0;padding-left:1.3rem}ol.advice li{margin:.25rem 0}
        .two{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 1.6rem}
        .key{white-space:nowrap;margin-right:.9rem}.key svg{display:inline-block;width:1.5rem;height:.7rem;vertical-align:-.05rem;margin-right:.3rem}
        .scroll{overflow-x:auto}
        table{border-collapse:collapse;font-size:.88rem;font-variant-numeric:tabular-nums}
        th,td{text-align:left;padding:.2rem 1.1rem .2rem 0;border-bottom:1px solid var(--grid);vertical-align:top}th{color:var(--soft);font-weight:500}
        .r{text-align:right;white-space:nowrap}.c{white-space:nowrap}.swatch{display:inline-block;width:.75rem;height:.75rem;margin-right:.4rem;background:var(--cause);vertical-align:-.06rem}
        footer{margin-top:2rem;color:var(--soft);font-size:.8rem}
        .t{font:11px system-ui,sans-serif;fill:var(--soft);font-variant-numeric:tabular-nums}.strong{fill:var(--ink)}
        .n{font:600 10.5px system-ui,sans-serif;fill:var(--ink)}.halo{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
        .grid,.ring{stroke:var(--grid);stroke-width:.7;fill:none}.strongring,.axis{stroke:var(--edge);stroke-width:1;fill:none}
        .good{fill:var(--good)}.lane{fill:var(--lane)}.lost,.shade{fill:var(--cause)}.shade{fill-opacity:.28}
        .sea{fill:var(--sea)}.land{fill:var(--land);fill-rule:evenodd}.coast{fill:none;stroke:var(--coast);stroke-width:.7}.frame{fill:none;stroke:var(--edge)}
        .swath{fill:var(--line);fill-opacity:.1;stroke:var(--line);stroke-width:.8}.across{fill:var(--cause);stroke:var(--cause);stroke-width:.4;opacity:.88}.under{fill:none;stroke:var(--paper);stroke-width:3}
        .level{fill:none;stroke:var(--line);stroke-width:1.2;stroke-linejoin:round}.reach{fill:none;stroke:var(--ink);stroke-width:1.1;stroke-dasharray:5 3}
        .need{stroke:var(--ink);stroke-width:1.1;stroke-dasharray:1.5 3}.scale{stroke:var(--ink);stroke-width:1.6}
        .band{fill:var(--line);fill-opacity:.17}.dot,.tick{fill:var(--line)}.tick{fill:var(--ink)}.stem{stroke:var(--line);stroke-width:.7;stroke-opacity:.5}.here{fill:var(--line);stroke:var(--paper);stroke-width:1.5}
        .sat{fill:none;stroke:var(--ink);stroke-width:1.3}.dish{fill:none;stroke:var(--line);stroke-width:.8;stroke-linejoin:round}
        .cloud{opacity:.17}.spread{fill:var(--line)}.beam{fill:none;stroke:var(--soft);stroke-width:1;stroke-dasharray:3 2}.skyline{fill:var(--edge);fill-opacity:.3;fill-rule:evenodd}
        .gone{fill:none;stroke:var(--cause);stroke-width:5;stroke-linecap:butt}
        .hollow{fill:var(--paper);stroke:var(--line);stroke-width:1.3}.mean{stroke:var(--ink);stroke-width:1.4}
        @media screen and (max-width:39.99rem){th,td{padding-right:.6rem}table{font-size:.84rem}svg.wide{display:none}svg.narrow{display:block}.two{grid-template-columns:minmax(0,1fr)}.key{white-space:normal}.figures div{flex-basis:8rem}}
        @media screen and (min-width:70rem){svg.wide .t{font-size:9.5px}svg.wide .n{font-size:9px}svg.both .t{font-size:9.5px}svg.both .n{font-size:9px}}
        @media print{@page{margin:14mm}body{font-size:10pt}main{max-width:none;padding:0}section{margin-top:5mm}section,tr{break-inside:avoid}section.long{break-inside:auto}thead{display:table-header-group}h1{font-size:16pt}.two{gap:0 6mm}}

        """ + CauseInk.Css();
}
