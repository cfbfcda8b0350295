namespace Cockpit.Reports;

/// <summary>How a page looks; colours that differ in lightness too, so that they serve without colour sight and in print.</summary>
internal static class PageStyle
{
    public const string Css =
        """
        :root{--paper:#fff;--ink:#1c1f24;--faint:#6a717c;--grid:#dfe3e8;--good:#d9e6df;--sea:#f3f6f9;--coast:#8a94a3;--line:#1f4e8c}
        @media (prefers-color-scheme:dark){:root{--paper:#14171b;--ink:#e4e7eb;--faint:#98a1ad;--grid:#2c323a;--good:#24382f;--sea:#191e24;--coast:#6b7683;--line:#8ab8f0}}
        @media print{:root{--paper:#fff;--ink:#000;--faint:#444;--grid:#ddd;--good:#e8e8e8;--sea:#fff;--coast:#777;--line:#103a70}section{break-inside:avoid}body{font-size:10pt}}
        *{box-sizing:border-box}
        body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.45 system-ui,sans-serif;-webkit-print-color-adjust:exact;print-color-adjust:exact}
        main{max-width:58rem;margin:0 auto;padding:1rem}
        h1{font-size:1.4rem;margin:.2rem 0 .6rem}h2{font-size:1.05rem;margin:1.4rem 0 .4rem}
        .big{font-size:1.25rem;margin:.2rem 0}
        figure{margin:0}figcaption{color:var(--faint);font-size:.85rem}
        svg{display:block;width:100%;height:auto}
        .two{display:grid;grid-template-columns:repeat(auto-fit,minmax(17rem,1fr));gap:0 1.2rem}
        .legend{list-style:none;margin:.4rem 0;padding:0;font-size:.9rem}.legend svg{display:inline-block;width:.8rem;height:.8rem}
        table{border-collapse:collapse;font-size:.9rem;width:100%}th,td{text-align:left;padding:.15rem .4rem;border-bottom:1px solid var(--grid)}
        td:nth-child(2),td:nth-child(3),td:nth-child(5){font-variant-numeric:tabular-nums}
        .t{font:11px system-ui,sans-serif;fill:var(--faint)}
        .grid,.ring{stroke:var(--grid);stroke-width:.7;fill:none}.good{fill:var(--good)}.sea{fill:var(--sea);stroke:var(--grid)}
        .coast{fill:none;stroke:var(--coast);stroke-width:.8}.swath{fill:var(--line);fill-opacity:.08;stroke:var(--line);stroke-width:.7}
        .level{fill:none;stroke:var(--line);stroke-width:1.2}.reach{fill:none;stroke:var(--ink);stroke-width:1;stroke-dasharray:4 3}
        .need,.scale{stroke:var(--ink);stroke-width:1;stroke-dasharray:1 3}.scale{stroke-dasharray:none}
        .band{fill:var(--line);fill-opacity:.15}.dot{fill:var(--line)}.here{fill:var(--ink)}
        .sat{fill:none;stroke:var(--ink);stroke-width:1.6}.dish{fill:none;stroke:var(--line);stroke-width:.8}.spread{fill:none;stroke:var(--line);stroke-width:.5;stroke-dasharray:2 2}
        .shade{fill-opacity:.3}.gone{fill:none;stroke-width:5;stroke-linecap:round}
        .c-late{fill:#e69f00}.c-amount{fill:#d55e00}.c-wrong-way{fill:#cc79a7}.c-not-found{fill:#c9b400}.c-off-aim{fill:#8c5a12}.c-fade{fill:#56b4e9}.c-skyline{fill:#009e73}
        .c-weak{fill:#8f98a3}.c-overload{fill:#0072b2}.c-feed-silent{fill:#7570b3}.c-recorder-stopped{fill:#a0306a}.c-not-transmitting{fill:#5b5f66}.c-unknown{fill:#b0b0b0}
        .s-late{stroke:#e69f00}.s-amount{stroke:#d55e00}.s-wrong-way{stroke:#cc79a7}.s-not-found{stroke:#c9b400}.s-off-aim{stroke:#8c5a12}.s-fade{stroke:#56b4e9}.s-skyline{stroke:#009e73}
        .s-weak{stroke:#8f98a3}.s-overload{stroke:#0072b2}.s-feed-silent{stroke:#7570b3}.s-recorder-stopped{stroke:#a0306a}.s-not-transmitting{stroke:#5b5f66}.s-unknown{stroke:#b0b0b0}

        """;
}
