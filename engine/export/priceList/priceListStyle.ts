import { pageColours } from '../pageColours.ts';

/** Styles of the list: a table on wide screens and paper, an entry below the other on a telephone. */
export const priceListStyle: string = `
${pageColours}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.45 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; overflow-wrap: break-word; }
bdi { overflow-wrap: anywhere; }
main { max-width: 820px; margin: 0 auto; padding: 28px 20px 56px; }
main.across { max-width: 1120px; }
header { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: end; gap: .4rem 2rem; border-bottom: 3px solid var(--accent); padding-bottom: .7rem; }
header > div { min-width: 0; }
h1, header p { margin: 0; }
h1 { color: var(--accent); font-size: 2.1rem; line-height: 1.1; font-weight: 650; }
.workshop { font-size: 1.05rem; font-weight: 600; margin-bottom: .15rem; }
.whom { text-align: right; color: var(--soft); }
.whom p:first-child:not(:last-child) { color: var(--ink); font-weight: 600; }
.terms { list-style: none; margin: .8rem 0 1.2rem; padding: 0; color: var(--soft); font-size: .95rem; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { text-align: right; vertical-align: top; padding: .42rem 0 .42rem .9rem; border-bottom: 1px solid var(--line); font-weight: 400; }
td { white-space: nowrap; }
th:first-child, .sizes { text-align: left; }
th:first-child { padding-left: 0; }
thead th:first-child { width: 38%; }
main:not(.across) thead th { white-space: nowrap; }
thead th { font-size: .85rem; color: var(--soft); vertical-align: bottom; border-bottom-color: var(--ink); }
.sizes { white-space: normal; }
.sizes span { display: inline-block; margin-right: .9em; }
.sizes i { font-style: normal; color: var(--soft); white-space: nowrap; }
tbody th b { font-weight: 600; }
.about { display: block; color: var(--soft); font-size: .9rem; }
td.one { font-weight: 600; }
td.as-before, td.list { color: var(--soft); }
.family th { color: var(--accent); font-weight: 600; font-size: 1.05rem; padding-top: 1.3rem; border-bottom-color: var(--accent); }
tbody { break-inside: avoid; }
.family, .family tr { break-after: avoid; }
.note { margin: 1.4rem 0 0; }
.cautions { margin-top: 1.4rem; padding-top: .7rem; border-top: 1px solid var(--line); color: var(--soft); font-size: .9rem; break-inside: avoid; }
.cautions ul { margin: 0; padding: 0; list-style: none; }
.cautions b { font-weight: 600; }
@media screen { .scroll { overflow-x: auto; } }
@media screen and (max-width: 620px) {
  main { padding: 16px 14px 40px; }
  h1 { font-size: 1.7rem; }
  .whom { text-align: left; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  table, tbody, tr, th, td { display: block; }
  tbody:not(.family) { border-bottom: 1px solid var(--line); padding: .55rem 0; }
  th, td { padding: 0; border: 0; text-align: left; }
  .family th { border-bottom: 1px solid var(--accent); padding: 1.2rem 0 .2rem; }
  tr { display: flex; flex-wrap: wrap; gap: .1rem 1.2rem; padding: .12rem 0; }
  tbody th, td.sizes { flex: 1 0 100%; max-width: 100%; }
  td[data-of]::before { content: attr(data-of) ": "; color: var(--soft); font-weight: 400; }
  td:empty { display: none; }
}
@page { margin: 15mm 16mm 16mm; @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt Arial, sans-serif; color: #5A6670; } }
@media print {
  body { font-size: 9.5pt; line-height: 1.35; background: #FFFFFF; }
  main, main.across { max-width: none; padding: 0; }
  h1 { font-size: 22pt; }
  .workshop { font-size: 11.5pt; }
  .terms { margin: 3mm 0 4mm; font-size: 9pt; }
  thead th { font-size: 8.5pt; }
  th, td { padding: 1.15mm 0 1.15mm 3.2mm; }
  .about { font-size: 8.5pt; }
  .family th { font-size: 10.5pt; padding-top: 4mm; }
  .note { margin-top: 5mm; }
  .cautions { margin-top: 5mm; padding-top: 2mm; font-size: 8.5pt; }
}
`;
