namespace Cockpit.Reports;

/// <summary>What a set-up sheet looks like beyond other pages: close, and black on white on paper.</summary>
internal static class SheetStyle
{
    /// <summary>Added to the style sheet of all pages.</summary>
    public static string Css { get; } =
        """
        section{margin:1.1rem 0 0}section p,section li{overflow-wrap:anywhere}section p{margin:.25rem 0}
        .moments td,.moments th{padding-right:.8rem}.moments td:not(:first-child),.moments th:not(:first-child){text-align:right}
        .holds{display:flex;flex-wrap:wrap;gap:0 1.6rem;align-items:start}
        .holds td,.holds th{padding:.06rem .7rem .06rem 0;text-align:right}.aside td{font-style:italic}
        ul.checks{list-style:none;margin:.2rem 0;padding:0}ul.checks label{display:block;padding:.12rem 0 .12rem 1.7rem;text-indent:-1.7rem}
        ul.checks input{width:1.1rem;height:1.1rem;margin:0 .6rem 0 0;vertical-align:-.18rem}
        ul.cautions{margin:.2rem 0;padding-left:1.1rem}ul.cautions li{margin:.15rem 0}
        .hold{fill:none;stroke:var(--line);stroke-width:.9}.holdaside{fill:none;stroke:var(--ink);stroke-width:.9;stroke-dasharray:2 2}
        .sun{fill:var(--paper);stroke:var(--ink);stroke-width:1.6}.moon{fill:var(--edge);stroke:var(--ink);stroke-width:.8}.shadow{stroke:var(--ink);stroke-width:1.6;stroke-dasharray:6 3}
        @media screen and (max-width:39.99rem){.moments td,.moments th{padding-right:.4rem}}
        @media print{:root{--ink:#000;--soft:#222;--line:#000;--grid:#bbb;--edge:#666;--paper:#fff}
        @page{margin:8mm}body{font-size:8.2pt;line-height:1.24;color:#000;background:#fff}h1{font-size:14pt}h2{font-size:9.6pt}.when{margin:0}
        section{margin-top:2.2mm}section p{margin:.5mm 0}.two{grid-template-columns:repeat(2,minmax(0,1fr));gap:0 6mm}.two.plan{grid-template-columns:76mm minmax(0,1fr)}
        table{font-size:8.2pt}th,td{padding-top:.2mm;padding-bottom:.2mm}.holds td,.holds th{padding:.1mm 1.6mm .1mm 0;font-size:7.6pt;line-height:1.15}.many td,.many th{font-size:6.8pt;line-height:1.08;padding:0 1.6mm 0 0}.holds{gap:0 4mm}
        figcaption{font-size:7.4pt;margin:0}ul.checks label{padding-top:.2mm;padding-bottom:.2mm;padding-left:5mm;text-indent:-5mm}ul.checks input{width:3mm;height:3mm;margin-right:2mm;vertical-align:-.4mm}
        ul.cautions li{margin:.2mm 0}footer{margin-top:2mm;font-size:7.2pt}.plan svg.both{width:76mm}}

        """;
}
