/** How pages and drawings look: one palette for both, light and dark, and on paper always light. */

import { drawingStyle } from "./drawing-paint.js";
import { DARK, LIGHT, type Palette, PRINT } from "./palette.js";

function variables(palette: Palette): string {
  return Object.entries(palette)
    .map(([name, value]) => `--${name}:${value}`)
    .join(";");
}

/** Who asks for contrast gets what is quiet in the colour of the text. */
const HIGH_CONTRAST = "--quiet:var(--ink);--unjudged:var(--ink);--rule:var(--ink);";

/** Style sheet of an HTML page, drawings included. */
export const STYLE = `
:root{color-scheme:light dark;${variables(LIGHT)}}
@media screen and (prefers-color-scheme:dark){:root{${variables(DARK)}}}
@media (prefers-contrast:more){:root{${HIGH_CONTRAST}}}
.vscode-high-contrast{${HIGH_CONTRAST}--paper:#000;--panel:#000;--ink:#fff}
.vscode-high-contrast-light{${HIGH_CONTRAST}--paper:#fff;--panel:#fff;--ink:#000}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 ui-sans-serif,system-ui,"Segoe UI","Noto Sans",sans-serif}
main{max-width:68rem;margin:0 auto;padding:2.5rem 1.5rem 4rem;overflow-wrap:break-word}
h1,h2{font-family:"Iowan Old Style","Palatino Linotype",Palatino,"URW Palladio L",Georgia,"DejaVu Serif",serif;font-weight:600;text-wrap:balance}
h1{font-size:2.1rem;line-height:1.15;margin:.4rem 0 .3rem;letter-spacing:-.01em}
h2{font-size:1.3rem;margin:0 0 .8rem}
section{margin-top:2.8rem}
nav{font-size:.9rem}
.letterhead{display:flex;justify-content:space-between;align-items:flex-start;gap:1.5rem;border-bottom:1px solid var(--rule);padding-bottom:.7rem;margin-bottom:1.4rem}
.letterhead p,.foot p{margin:0}
.letterhead>div{min-width:0}
.letterhead img{width:auto;height:auto;max-width:45%;max-height:4rem;background:#fff}
.foot{margin-top:2.5rem}
.find{display:block;margin:.5rem 0}
tr[hidden]{display:none !important}
th button{font:inherit;color:inherit;background:none;border:0;border-bottom:1px dotted;padding:0;cursor:pointer;text-align:inherit}
th[aria-sort] button{color:var(--ink);border-bottom-style:solid}
th[aria-sort=ascending] button::after{content:" ▲"}
th[aria-sort=descending] button::after{content:" ▼"}
.contents{list-style:none;padding:0}
a{color:var(--accent);text-underline-offset:.15em;text-decoration-thickness:.06em}
.subtitle{margin:0;color:var(--quiet);font-size:1.05rem}
.quiet{color:var(--quiet)}
p{margin:.6rem 0;max-width:46rem}
ul{margin:.6rem 0;padding-left:1.2rem;max-width:46rem}
li{margin:.2rem 0}
code{font:.92em/1.4 ui-monospace,"Cascadia Mono","DejaVu Sans Mono",monospace}
dl{margin:0}dd{margin:0}
.key{display:grid;grid-template-columns:repeat(auto-fit,minmax(7.5rem,1fr));gap:0 2rem;margin-top:1.6rem;border-block:1px solid var(--rule)}
.key.many{grid-template-columns:repeat(3,1fr)}
.key>div{padding:.8rem 0 .7rem}
.key dt{font-size:.82rem;color:var(--quiet)}
.key dd{font-size:1.45rem;line-height:1.25;font-variant-numeric:tabular-nums;white-space:nowrap}
.key dd small{font-size:.95rem;color:var(--quiet)}
.key .note{font-size:.82rem;color:var(--quiet);white-space:normal;line-height:1.35}
.key .error dd:not(.note){color:var(--error)}
.key .warning dd:not(.note){color:var(--warning)}
.key .accepted dd:not(.note){color:var(--accepted)}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,24rem),1fr));column-gap:2.5rem}
.facts>div{display:flex;justify-content:space-between;gap:1.2rem;border-bottom:1px solid var(--rule);padding:.32rem 0}
.facts dt{color:var(--quiet)}
.facts dd{text-align:right;font-variant-numeric:tabular-nums}
.facts .quiet{display:inline-block;min-width:7.5rem}
.pair{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,26rem),1fr));gap:1rem 2.5rem}
.pair>div{min-width:0}
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.92rem;font-variant-numeric:tabular-nums;margin:.3rem 0 .8rem}
caption{text-align:left;font-weight:600;padding:.3rem 0}
th{font-weight:500;color:var(--quiet);font-size:.92em;text-align:left;vertical-align:bottom;border-bottom:1.5px solid var(--quiet)}
th,td{padding:.32rem .9rem .32rem 0}
th:last-child,td:last-child{padding-right:0}
td{border-bottom:1px solid var(--rule);vertical-align:baseline}
table.wide{font-size:.86rem}
table.wide th,table.wide td{padding-right:.7rem}
td a{white-space:nowrap}
.right{text-align:right}
td.right{white-space:nowrap}
table.wide td.right{white-space:normal}
.emphasis td{font-weight:650;background:var(--panel)}
figure{margin:.4rem 0 1rem}
figure svg{display:block;width:100%;height:auto;min-width:36rem}
figure.small svg{min-width:0;max-width:34rem}
figure .slim{display:none}
figure .slim svg{min-width:0;max-width:34rem}
figure svg.system{width:auto;min-width:0;max-width:100%}
@media screen{figure svg.whole{max-width:none}}
figcaption{font-size:.88rem;color:var(--quiet);max-width:50rem;margin-top:.4rem}
.badge{font-size:.78rem;font-weight:600;border:1px solid currentColor;border-radius:.7em;padding:.02em .55em;white-space:nowrap}
.badge.good{color:var(--good)}.badge.error{color:var(--error)}.badge.warning{color:var(--warning)}.badge.info{color:var(--info)}.badge.accepted{color:var(--accepted)}.badge.unjudged{color:var(--unjudged);border-style:dashed}
.findings{list-style:none;padding:0;max-width:none}
.findings li{border-left:3px solid var(--info);padding:.1rem 0 .1rem 1rem;margin:0 0 1rem}
.findings li.error{border-color:var(--error)}.findings li.warning{border-color:var(--warning)}.findings li.accepted{border-color:var(--accepted)}
.findings p{margin:.15rem 0}
footer{margin-top:3.5rem;border-top:1px solid var(--rule);padding-top:.8rem;font-size:.85rem;color:var(--quiet);max-width:none}
@media screen and (max-width:44rem){
figure .broad{display:none}
figure .slim{display:block}
main{padding:1.5rem 1rem 3rem}
td.right{white-space:normal}
table.cards,table.cards caption,table.cards tbody,table.cards tr{display:block}
table.cards thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
table.cards tr{border-bottom:1.5px solid var(--quiet);padding:.3rem 0}
table.cards td,table.cards td.right{display:flex;justify-content:space-between;gap:1rem;padding:.15rem 0;border:0;text-align:right;white-space:normal}
table.cards td::before{content:attr(data-label);color:var(--quiet);text-align:left}
table.cards td:empty{display:none}
.key.many{grid-template-columns:repeat(2,1fr);gap:0 1rem}
.key.many dd:not(.note){font-size:1.15rem;white-space:normal}
}
.paper{display:none}
.cautions{border:1.5px solid var(--ink);border-radius:3px;padding:.5rem .8rem .5rem 2.2rem;margin:.4rem 0}
.cautions li{list-style:"⚠  "}
.form{padding-right:2px;display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,15rem),1fr));gap:.5rem 1.2rem;margin:.4rem 0}
.form .broad{grid-column:1/-1}
.form dt{font-size:.85em}
.form dd{display:flex;gap:.4rem;align-items:center;margin:0}
.form>div,.signatures>div{min-width:0}
.form .box{flex:1;min-width:0;border:1px solid var(--quiet);min-height:1.7em;padding:0 .4em}
.form .broad .box{min-height:4em}
td.fill{border:1px solid var(--quiet);min-width:5.5em}
.signatures{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,15rem),1fr));gap:1.2rem 2rem}
.signatures dl{margin:0}
.signatures dt{font-size:.85em;color:var(--quiet)}
.signatures dd{border-bottom:1px solid var(--ink);height:2em;margin:0 0 .4rem}
${drawingStyle((name) => `var(--${name})`)}
@media print{
.cautions,.form>div,.signatures>div{break-inside:avoid}
@page{margin:11mm 12mm 13mm;@bottom-left{font:7.5pt sans-serif;color:#444}@bottom-right{font:7.5pt sans-serif;color:#444}}
:root{--paper:${PRINT.paper};--panel:${PRINT.panel}}
:root,body{font-size:8pt;line-height:1.3}
main{max-width:none;padding:0}
.find,nav,.unprinted{display:none}
.paper{display:block}
th button{border:0}
th[aria-sort] button::after{content:none}
h1{font-size:17pt;margin:0 0 .1rem}
h2{font-size:11pt;margin:0 0 .3rem}
.key{gap:0 1.2rem;margin-top:.6rem}
.key>div{padding:.3rem 0 .25rem}
.key dd{font-size:1.15rem}
section{margin-top:3.2mm}
h2{break-after:avoid}
.together{break-inside:avoid}
.lead{break-inside:avoid}
figure,tr,.findings li,.key,.scroll,.facts,.pair>div{break-inside:avoid}
.scroll.long,.pair.long>div{break-inside:auto}
figure.small{break-after:avoid}
thead{display:table-header-group}
caption{break-after:avoid}
p{orphans:3;widows:3;margin:.25rem 0}
p,ul,.cautions,footer,figcaption{max-width:none}
ul{margin:.25rem 0}
.cautions{padding:.25rem .6rem .25rem 1.9rem}
.findings li{margin:0 0 .4rem}
.scroll{overflow:visible}
figure svg,figure.small svg{min-width:0}
figure svg{max-height:58mm;margin-inline:auto}
figure.small svg{max-height:36mm}
figcaption{font-size:7.2pt;margin-top:.15rem}
a{color:inherit;text-decoration:none}
.pair{grid-template-columns:1fr 1fr;gap:2mm 6mm}
.facts{grid-template-columns:1fr 1fr;font-size:7.6pt;line-height:1.25}
.facts .quiet{min-width:0}
table{font-size:7.6pt;margin:.1rem 0 .25rem;line-height:1.25}
th,td{padding-block:.1rem}
caption{padding:.15rem 0}
.facts>div{padding:.1rem 0}
figure{margin:.15rem 0 .35rem}
.pair table,.pair .facts{font-size:7.1pt;line-height:1.2}
table.wide{font-size:6.4pt;line-height:1.15}
table.wide th,table.wide td{padding-right:.45rem}
.badge{font-size:.9em}
.small{columns:2;column-gap:6mm;font-size:6.6pt;line-height:1.17}
.small .lead{break-inside:auto}
.small td.right{white-space:normal}
.small .facts{grid-template-columns:1fr;font-size:6.5pt;line-height:1.15}
.small .facts .quiet{display:inline}
.small p{margin:.1rem 0}
.small ul{margin:0}
.small table{font-size:6.1pt;line-height:1.12}
.small th,.small td{padding-block:.03rem;padding-right:.4rem}
.small .scroll{break-inside:auto}
.form{gap:.25rem 1rem}
.form .box{min-height:2.1em}
td.fill{height:2.3em}
.signatures{gap:.6rem 2rem}
footer{margin-top:3mm;padding-top:.3rem;font-size:7.2pt}
footer p{margin:0 0 .15rem}
}
`;

/** A drawing as a file of its own: brings its colours along, as plain values that every viewer of SVG reads. */
export function standaloneSvg(svg: string): string {
  const dark = drawingStyle((name) => DARK[name]);
  const style = `${drawingStyle((name) => LIGHT[name])}svg .sheet{fill:${LIGHT.paper}}
@media (prefers-color-scheme:dark){${dark}svg .sheet{fill:${DARK.paper}}}`;
  const sheet = '<rect class="sheet" width="100%" height="100%"/>';
  return svg.replace(
    /<svg([^>]*)>/,
    (_whole, attributes: string) =>
      `<svg xmlns="http://www.w3.org/2000/svg"${attributes}><style>${style}</style>${sheet}`,
  );
}
