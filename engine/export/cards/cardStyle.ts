import { pageColours } from '../pageColours.ts';

/** Styles of the page: the palette by name, one column on screen, one card a sheet of A4 or Letter on paper. */
export const cardStyle: string = `
${pageColours}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.45 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; overflow-wrap: break-word; }
bdi { overflow-wrap: anywhere; }
main { max-width: 720px; margin: 0 auto; padding: 16px 12px 48px; }
h1, h2, h3 { color: var(--accent); line-height: 1.2; margin: 0; }
h1 { font-size: 1.6rem; }
h2 { font-size: 1.45rem; }
h3 { font-size: 1rem; margin: 0 0 .35rem; }
p { margin: .35rem 0; }
a { color: var(--accent); }
nav ul { columns: 14rem; padding: 0 0 0 1.1rem; margin: .5rem 0 0; }
nav li { break-inside: avoid; padding: .1rem 0; }
.card { border-top: 3px solid var(--accent); margin-top: 40px; padding-top: 14px; }
.soft { color: var(--soft); }
.kind { font-weight: 600; }
.kind.estimated { color: var(--watch); }
.kind.measured { color: var(--good); }
@media print, (prefers-color-scheme: light) { .kind.estimated { color: #7D5210; } }
section { margin-top: 18px; break-inside: avoid; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--soft); font-size: .9em; padding-bottom: .25rem; }
th, td { text-align: right; vertical-align: baseline; padding: .25rem .3rem; border-bottom: 1px solid var(--line); font-weight: 400; }
td { white-space: nowrap; }
tbody th { min-width: 7em; }
thead th { font-size: .85em; color: var(--soft); vertical-align: bottom; border-bottom-color: var(--ink); }
tbody th:first-child, thead tr:first-child th:first-child { text-align: left; padding-left: 0; }
th:last-child, td:last-child { padding-right: 0; }
tbody th b { font-weight: 600; margin-right: .6em; }
tbody th .named { white-space: normal; }
td.cut { font-weight: 600; font-size: 1.1em; }
tfoot th, tfoot td { border-bottom: 0; font-weight: 600; }
tr { break-inside: avoid; }
.swatch { width: 1.9em; height: .8em; vertical-align: -.05em; margin-right: .35em; }
figure { margin: 0; }
svg { max-width: 100%; height: auto; display: block; fill: var(--ink); font-family: inherit; }
svg.swatch { display: inline-block; }
svg text { unicode-bidi: isolate; }
svg .dim, svg .tick, svg .leader, svg .break { fill: none; stroke: var(--ink); stroke-width: .22; }
svg .leader { stroke-width: .18; }
svg .break { stroke-width: .3; }
svg .dot { fill: var(--paper); stroke: var(--ink); stroke-width: .25; }
svg .band { fill: var(--quiet); stroke: var(--ink); stroke-width: .25; }
svg .outline { fill: none; stroke: var(--ink); stroke-width: .2; stroke-dasharray: 1 .8; }
svg .hardware { fill: var(--paper); stroke: var(--ink); stroke-width: .25; stroke-dasharray: 1.6 .8; }
svg .bar { fill: var(--line); stroke: var(--ink); stroke-width: .25; }
svg .edge { fill: none; stroke: var(--edge, #22303C); }
svg .cord { fill: none; }
svg .unknown { fill: none; stroke: #F3F1EC; }
svg .hatch { fill: none; stroke: #22303C; }
.narrow { display: none; }
dl { margin: 0; }
dl div { display: grid; grid-template-columns: 6em 1fr; gap: .6rem; }
dt { color: var(--soft); }
dd { margin: 0; }
.pair { display: grid; gap: 0 28px; grid-template-columns: 1fr 1fr; }
.cautions { border: 1px solid var(--bad); border-left-width: 5px; padding: .5rem .8rem; }
.cautions ul { margin: 0; padding-left: 1.1rem; }
.card footer { margin-top: 14px; color: var(--soft); font-size: .85rem; }
@media screen and (max-width: 700px) {
  .wide { display: none; }
  .narrow { display: block; width: 100%; }
  .pair { grid-template-columns: 1fr; }
  main { padding: 12px 12px 40px; }
  table { font-size: .8rem; }
  th, td { padding: .25rem .16rem; }
  tbody th { min-width: 4.6em; }
  tbody th b { display: block; }
}
@media screen and (prefers-color-scheme: dark) { svg { --edge: #7A858B; } }
@page { margin: 9mm 14mm; }
@media print {
  body { font-size: 9.2pt; line-height: 1.3; background: #FFFFFF; }
  main { max-width: none; padding: 0; }
  .screen { display: none; }
  .card { border-top: 0; margin: 0; padding: 0; }
  .card + .card { break-before: page; }
  h2 { font-size: 15pt; }
  h3 { font-size: 10pt; margin-bottom: .6mm; }
  p { margin: .5mm 0; }
  section { margin-top: 2.2mm; }
  .scroll { overflow: visible; }
  .pair { font-size: 8.8pt; }
  .cautions { font-size: 8.6pt; }
  th, td { padding: .4mm 1.2mm; }
  .cautions { padding: 1.2mm 3mm; }
  .card footer { margin-top: 1.6mm; font-size: 7.5pt; }
  svg .edge, .swatch rect { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
