#include <dampline/report/html_style.hpp>

namespace dampline::report {

// Sizes: nothing under 18 px on a screen; what is touched is 64 px with 16 px between. Tones: black
// for the press, blues of wetting and inking told apart by lightness, so that grey keeps them
// apart.
std::string_view html_style() {
  return R"css(
:root{color-scheme:light dark;
--sheet:#fff;--text:#14181b;--soft:#3f474c;--rule:#a9b2b7;--wash:#eef2f4;--accent:#0d3b66;--alert:#7a1f0b;
--press:#14181b;--ink:#3d5a70;--away:#9fb0ba;--damp:#c6dde9;--blot:#dfeaf0;--likely:#c3d0d8;--band:#e6f0e4}
@media (prefers-color-scheme:dark){:root{
--sheet:#0f1315;--text:#eef1f2;--soft:#c6ced2;--rule:#566167;--wash:#1b2226;--accent:#a9d2f0;--alert:#ffb59e;
--press:#f4f6f7;--ink:#86abc4;--away:#4f5e67;--damp:#2f5468;--blot:#223641;--likely:#37444c;--band:#1d2e1c}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;scroll-behavior:auto}
body{margin:0;background:var(--sheet);color:var(--text);font:1.125rem/1.4 Optima,Candara,"Noto Sans","DejaVu Sans",sans-serif;
font-variant-numeric:tabular-nums lining-nums;overflow-wrap:anywhere}
header,main,footer{max-width:74rem;margin:0 auto;padding:0 1rem}
h1{font-size:1.75rem;line-height:1.15;margin:.1em 0 .5em}
h2{font-size:1.5rem;line-height:1.2;margin:2.2em 0 .6em;padding-top:.35em;border-top:4px solid var(--text)}
h3{font-size:1.25rem;margin:1.2em 0 .2em}
p{margin:.5em 0;max-width:44em}
a{color:var(--accent)}
ul{padding-left:1.1em;margin:.5em 0;max-width:44em}
li{margin:.3em 0}
.vh{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
:focus-visible{outline:4px solid var(--accent);outline-offset:2px}

.head{position:relative;margin-top:1rem;padding:1.1rem 1.25rem .8rem}
.head::before,.head::after{content:"";position:absolute;width:2.2rem;height:2.2rem;border:0 solid var(--text)}
.head::before{top:0;left:.25rem;border-width:3px 0 0 3px}
.head::after{bottom:0;right:.25rem;border-width:0 3px 3px 0}
.date{color:var(--soft);margin:0}
.facts{margin:0;display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,13.5rem),1fr));gap:.3rem 1.75rem}
.facts div{display:grid;grid-template-columns:1fr auto;align-items:baseline;border-top:1px solid var(--rule);padding-top:.3rem}
.facts dt{color:var(--soft)}
.facts dd{margin:0;font-size:2rem;line-height:1.2;font-weight:700}
.facts dd.note{grid-column:1/-1;font-size:1.125rem;font-weight:400;line-height:1.3;text-align:right}
.facts .alert dd{color:var(--alert)}
.unbroken{white-space:nowrap}
.verdict{font-size:1.25rem;margin-top:.9em}
.alerts{border:4px double var(--alert);padding:.2rem 1rem .4rem;margin:1rem 0;max-width:none}
.alerts h2{border:0;margin:.2em 0 0;color:var(--alert)}
.touch{font-weight:700}
nav{display:flex;flex-wrap:wrap;gap:16px;margin:1rem 0}
nav a{display:inline-flex;align-items:center;min-height:64px;min-width:64px;padding:0 1rem;border:2px solid var(--text);color:var(--text);font-weight:700;text-decoration:none}

table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:middle;padding:.35rem .6rem .35rem 0}
thead th{color:var(--soft);font-weight:400;vertical-align:bottom;border-bottom:2px solid var(--text)}
tbody tr{border-bottom:1px solid var(--rule)}
.steps tr.goal{border-bottom:2px solid var(--text)}
.steps tr.goal th{font-size:1.25rem;padding:1.4rem 0 .4rem}
.steps td.tick{padding:8px 8px 8px 0}
.tick label{display:block;width:64px;height:64px}
.tick input{appearance:none;-webkit-appearance:none;display:grid;place-content:center;margin:0;width:64px;height:64px;background:none;cursor:pointer}
.tick input::before{content:"";width:36px;height:36px;border:3px solid var(--text)}
.tick input:checked::before{background:linear-gradient(45deg,transparent 46%,var(--text) 46% 54%,transparent 54%),linear-gradient(-45deg,transparent 46%,var(--text) 46% 54%,transparent 54%)}
.steps tbody th.at{font-size:1.5rem;white-space:nowrap}
.at time{padding:.1em .2em;margin-left:-.2em}
.what b{font-size:1.2rem;line-height:1.3;font-weight:400;display:block}
.pull .what b{font-weight:700}
.pull .at time{background:var(--text);color:var(--sheet)}
.cue{display:block;color:var(--soft)}
.real{display:none}
.steps .takes{text-align:right;white-space:nowrap;padding-right:.8rem}
.pause td,.pause th{background:repeating-linear-gradient(45deg,var(--wash) 0 8px,transparent 8px 16px)}
.pause .what b{font-weight:700}
tr:has(:checked){color:var(--soft)}
tr:has(:checked) .what b{text-decoration:line-through}
.pulls .odd td,.pulls .odd th{color:var(--alert)}
.pulls td,.pulls th[scope=row]{white-space:nowrap}
.pulls td.plate{white-space:normal;overflow-wrap:anywhere;min-width:4em}

figure{margin:0}
figcaption{margin-top:.5em;color:var(--soft);max-width:44em}
svg{display:block;width:100%;height:auto}
svg text{fill:var(--text);font-size:13px}
.pictures{display:grid;gap:2rem}
.chart{max-width:34rem}
.moisture{max-width:40rem}
svg .hour{text-anchor:end;font-size:14px}
svg .clock,svg .lane,svg .halo,svg .word{text-anchor:middle}
svg .clock{font-size:14px}
svg .unit{font-size:14px}
svg .lane{font-weight:700}
svg .halo{font-size:15px;font-weight:700;paint-order:stroke;stroke:var(--sheet);stroke-width:6px}
svg .grid{stroke:var(--rule);stroke-width:.6}
svg .axis{stroke:var(--text);stroke-width:1.5;fill:none}
svg .hatch{stroke:var(--soft);stroke-width:1.4}
svg rect.pause{stroke:var(--soft);stroke-width:1}
.bar{stroke:var(--text);stroke-width:1;fill:var(--sheet)}
.bar.press{fill:var(--press)}.bar.ink{fill:var(--ink)}.bar.away{fill:var(--away)}.bar.damp{fill:var(--damp)}.bar.blot{fill:var(--blot)}
.bar.ready,.bar.clear{stroke-dasharray:4 2}
svg .on-press,svg .on-ink{fill:var(--sheet)}
svg .on-press,svg .on-ink,svg .on-damp{font-weight:700}
svg .printable{fill:var(--band);stroke:var(--soft);stroke-width:1;stroke-dasharray:6 3}
svg .likely{fill:var(--likely);fill-opacity:.75}
svg .edge{stroke:var(--text);stroke-width:1;stroke-dasharray:2 3}
svg .mean{fill:none;stroke:var(--text);stroke-width:3}
svg .surface{fill:none;stroke:var(--accent);stroke-width:2;stroke-dasharray:7 4}
svg .mark{fill:var(--sheet);stroke:var(--text);stroke-width:2}
.key{display:flex;flex-wrap:wrap;gap:.4rem 1.4rem;list-style:none;padding:0;margin:.8em 0}
.key li{display:flex;align-items:center;gap:.5rem;margin:0}
.key svg{width:34px;height:28px;flex:none}
.after{display:grid;grid-template-columns:minmax(0,1fr);gap:0 1.5rem;margin:0}
.after dt{font-weight:700}
.after dd{margin:0 0 .7em}
footer{margin-top:2.5rem;padding-bottom:2rem;break-inside:avoid;break-before:avoid}
footer p{border-top:1px solid var(--rule);padding-top:.7em;max-width:none}

@media screen and (max-width:47.99rem){
.steps,.steps tbody{display:block}
.steps thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.steps tr{display:grid;grid-template-columns:76px auto auto 1fr;align-items:baseline;align-content:center;padding:8px 0;min-height:80px}
.steps tr.goal{display:block;min-height:0;padding:0}
.steps tr.goal th{display:block}
.steps td,.steps tbody th{padding:0}
.steps td.tick{grid-row:1/3;align-self:center;padding:0;width:auto}
.steps td.who{padding-right:1rem}
.steps td.takes{text-align:left;color:var(--soft);padding:0}
.steps td.what{grid-column:2/-1;grid-row:2}
.pause{padding-right:.5rem}
}
@media screen and (max-width:59.99rem){
.pulls,.pulls tbody,.pulls tr,.pulls td,.pulls th{display:block;min-width:0}
.pulls thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.pulls tr{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,8.5rem),1fr));gap:.1rem 1rem;padding:.6rem 0}
.pulls td,.pulls th[scope=row]{padding:0;white-space:normal}
.pulls td::before{content:attr(data-head);display:block;color:var(--soft);font-weight:400}
.pulls th[scope=row]::before{content:"print";display:block;color:var(--soft);font-weight:400}
}
@media screen and (min-width:48rem){
body{font-size:1.25rem}
.facts dd.note{font-size:1.125rem}
header,main,footer{padding:0 2rem}
.head{padding:1.5rem 2.25rem 1rem;margin-top:1.5rem}
h1{font-size:2.4rem}h2{font-size:1.75rem}h3{font-size:1.35rem}
.steps tbody th.at{font-size:1.75rem}
.what b{font-size:1.375rem}
.steps{table-layout:fixed}
thead .tick{width:76px}thead .at{width:6.4rem}thead .who{width:5.6rem}thead .takes{width:6.6rem}
.steps th.real{display:table-cell;width:0;padding:0;overflow:hidden;visibility:hidden}
.facts{grid-template-columns:repeat(3,1fr)}
.facts div{display:block}
.facts dd.note{text-align:left}
.pulls tr{grid-template-columns:repeat(4,1fr)}
.after{grid-template-columns:max-content minmax(0,1fr)}
}
@media screen and (min-width:64rem){
.facts{grid-template-columns:repeat(5,1fr)}
.pictures{grid-template-columns:minmax(0,30rem) minmax(0,1fr);align-items:start;gap:3rem}
}
@media (forced-colors:active){
.pull .at time{border:3px solid CanvasText}
.tick input::before{border-color:ButtonText}
.tick input:checked::before{background:none;content:"\2715";font:700 32px/30px sans-serif;text-align:center}
svg .bar{fill:Canvas;stroke:CanvasText}
svg .bar.press,svg .bar.ink{stroke-width:3}
svg text{fill:CanvasText}
svg .grid,svg .axis,svg .edge,svg .hatch,svg .mean,svg .surface,svg .mark,svg .printable{stroke:CanvasText}
svg .printable,svg .mark,svg .likely{fill:Canvas}
svg .likely{stroke:GrayText;fill:none}
svg .halo{stroke:Canvas}
}
@media print{
:root{color-scheme:only light;
--sheet:#fff;--text:#000;--soft:#000;--rule:#aaa;--wash:#fff;--accent:#000;--alert:#000;
--press:#000;--ink:#555;--away:#aaa;--damp:#ccc;--blot:#e4e4e4;--likely:#ccc;--band:#f0f0f0}
@page{margin:13mm 13mm 15mm}
body{font-size:10.5pt;line-height:1.3}
header,main,footer{max-width:none;padding:0}
nav{display:none}
h1{font-size:20pt}h2{font-size:14pt;margin:1.4em 0 .5em;border-top-width:2pt}h3{font-size:11.5pt}
h2,h3{break-after:avoid}
.head{padding:4mm 6mm 3mm;margin:0}
.head::before{left:0}.head::after{right:0}
p,ul{max-width:none;margin:.3em 0}
.facts{grid-template-columns:repeat(5,auto);gap:1mm 5mm}
.facts div{display:block}
.facts dd{font-size:17pt}
.facts dd.note{font-size:9.5pt;text-align:left}
.verdict{font-size:11pt}
thead{display:table-header-group}
tr,figure,.after dd,li{break-inside:avoid}
.goal{break-after:avoid}
.steps th,.steps td,.pulls th,.pulls td{padding:.6mm 2.5mm .6mm 0}
.steps tbody tr{height:7.6mm}
.steps tr.goal th{font-size:11.5pt;padding:3mm 0 .6mm}
.steps{table-layout:fixed}
.steps .real{display:table-cell}
thead .tick{width:13mm}thead .at{width:19mm}thead .who{width:15mm}thead .takes{width:20mm}thead .real{width:22mm}
.steps td.tick{padding:0}
.tick label,.tick input{width:8mm;height:8mm}
.tick input::before{width:5mm;height:5mm;border-width:.5mm}
.tick input:checked::before{background:none}
tr:has(:checked) .what b{text-decoration:none}
.steps tbody th.at{font-size:13pt}
.what b{font-size:10.5pt;line-height:1.2}
.cue{font-size:9.5pt;line-height:1.2}
.steps th.real{padding-left:2mm}
td.real{border-left:.3mm solid #888;border-right:.3mm solid #888}
.pull .at time{background:none;color:#000;border:.6mm solid #000}
.pulls{font-size:9.5pt}
.pictures{grid-template-columns:86mm minmax(0,1fr);gap:7mm;align-items:start}
.pictures figure,.pictures figcaption{font-size:9pt}
.chart{max-height:205mm}
.bar,.key rect,.likely,.printable{print-color-adjust:exact;-webkit-print-color-adjust:exact}
.after{grid-template-columns:max-content minmax(0,1fr)}
.alerts{break-inside:avoid}
footer{margin-top:4mm;padding:0;font-size:9.5pt}
}
)css";
}

}  // namespace dampline::report
