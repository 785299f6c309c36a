import { pageColours } from '../pageColours.ts';
import { cssColour, inputGround } from '../palette.ts';
import { chartColours } from './charts/chartColours.ts';

const { tint, slate, sand } = chartColours;

/** Styles of the page: one column, pictures as large as the column, two sizes of each for screen and telephone. */
export const reportStyle: string = `
${pageColours}
:root { --tint: ${tint}; --slate: ${slate}; --sand: ${sand}; --input: ${cssColour(inputGround)}; }
@media screen and (prefers-color-scheme: dark) {
  :root { --tint: #3E666A; --slate: #B9C4D0; --sand: #6B624C; --input: #2B2A1F; }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; scroll-padding-top: 12px; }
@media (prefers-reduced-motion: no-preference) { html { scroll-behavior: smooth; } }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; overflow-wrap: break-word; }
bdi { overflow-wrap: anywhere; }
main { max-width: 732px; margin: 0 auto; padding: 16px 16px 56px; }
h1, h2, h3 { color: var(--accent); line-height: 1.25; margin: 0; text-wrap: balance; }
h1 { font-size: 1.7rem; }
h2 { font-size: 1.35rem; }
h3 { font-size: 1.02rem; }
p { margin: .4rem 0; }
a { color: var(--accent); }
:focus-visible { outline: 3px solid var(--watch); outline-offset: 2px; }
section { margin-top: 48px; border-top: 2px solid var(--line); padding-top: 14px; }
.soft { color: var(--soft); }
.bad { color: var(--bad); font-weight: 600; }
.answer { display: grid; grid-template-columns: repeat(auto-fit, minmax(12rem, 1fr)); gap: 10px; margin: 18px 0 6px; }
.answer div { background: var(--quiet); padding: 10px 14px; border-radius: 6px; }
.answer dt { color: var(--soft); font-size: .88rem; }
.answer dd { margin: 0; font-size: 1.55rem; font-weight: 600; line-height: 1.2; font-variant-numeric: tabular-nums; }
.answer .look { border-left: 5px solid var(--bad); }
.answer dd { white-space: nowrap; }
.answer small { display: block; white-space: normal; line-height: 1.4; font-size: .85rem; font-weight: 400; color: var(--soft); }
nav ul { columns: 15rem; padding-left: 1.1rem; margin: .6rem 0 0; }
nav li { break-inside: avoid; padding: .12rem 0; }
figure { margin: 22px 0 0; }
figcaption { margin-bottom: 4px; }
.key { display: flex; flex-wrap: wrap; gap: .1rem 1.1rem; color: var(--soft); font-size: .88rem; margin: .3rem 0 .5rem; padding: 0; list-style: none; }
.key svg { width: 18px; height: 12px; vertical-align: -1px; margin-right: .35em; }
svg { display: block; max-width: 100%; height: auto; font-family: inherit; }
.key svg { display: inline-block; }
svg text { unicode-bidi: isolate; }
.narrow { display: none; }
details { margin: 6px 0 0; }
summary { cursor: pointer; color: var(--accent); font-size: .92rem; padding: .3rem 0; }
.scroll { overflow-x: auto; max-width: 100%; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; font-variant-numeric: tabular-nums; }
caption { max-width: calc(100vw - 32px); text-align: left; color: var(--soft); padding: .2rem 0 .35rem; }
th, td { text-align: right; vertical-align: baseline; padding: .25rem .45rem; border-bottom: 1px solid var(--line); font-weight: 400; }
thead th { color: var(--soft); vertical-align: bottom; border-bottom-color: var(--ink); font-size: .92em; }
th:first-child { text-align: left; padding-left: 0; min-width: 5.6em; }
th.text, td.text { text-align: left; }
td:last-child, th:last-child { padding-right: 0; }
td { white-space: nowrap; }
td.words { white-space: normal; min-width: 6em; }
tbody th.group { font-weight: 600; color: var(--accent); padding-top: .7rem; border-bottom-color: var(--line); }
tbody th.own { font-weight: 600; }
.sliders { border: 1px solid var(--line); border-radius: 6px; padding: 4px 16px 14px; margin: 14px 0; }
.sliders legend { padding: 0 .4rem; color: var(--soft); }
.slider { display: grid; grid-template-columns: 1fr auto auto; gap: 2px 12px; align-items: center; padding: 10px 0 4px; }
.slider label { grid-column: 1 / -1; font-weight: 600; }
.slider .soft { grid-column: 1 / -1; font-size: .86rem; }
.slider input[type=range] { width: 100%; min-height: 32px; margin: 0; accent-color: var(--accent); }
.slider input[type=number] { width: 6.2rem; font: inherit; padding: .3rem .4rem; color: var(--ink); background: var(--input); border: 1px solid var(--soft); border-radius: 4px; text-align: right; }
.slider input[aria-invalid=true] { border: 2px solid var(--bad); }
.slider .unit { min-width: 3rem; justify-self: start; font-size: .9rem; }
.wrong { grid-column: 1 / -1; color: var(--bad); font-size: .9rem; }
button { font: inherit; color: var(--paper); background: var(--accent); border: 0; border-radius: 4px; padding: .5rem 1rem; cursor: pointer; min-height: 40px; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.skip:not(:focus) { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
td.moved { font-weight: 600; }
[hidden] { display: none; }
footer { margin-top: 48px; color: var(--soft); font-size: .88rem; border-top: 1px solid var(--line); padding-top: 10px; }
@media screen and (max-width: 731px) {
  main { padding: 12px 16px 40px; }
  .wide { display: none; }
  .narrow { display: block; }
  table { font-size: .82rem; }
  th, td { padding: .25rem .22rem; }
  td.words { min-width: 4em; }
  .answer { grid-template-columns: repeat(auto-fit, minmax(8.5rem, 1fr)); }
  .answer dd { white-space: normal; font-size: 1.4rem; }
  .slider { grid-template-columns: auto 1fr; }
  .slider input[type=range] { grid-column: 1 / -1; }
  .slider input[type=number] { justify-self: start; }
}
@page { size: A4; margin: 14mm; }
@media print {
  body { font-size: 10pt; background: #FFFFFF; }
  main { max-width: none; padding: 0; }
  nav, .controls, .skip { display: none; }
  section { margin-top: 8mm; }
  h1, h2, h3, figcaption, .key, caption, thead { break-after: avoid; }
  figure, tr, .answer, #live-table tbody { break-inside: avoid; }
  #try { break-before: page; }
  caption { max-width: none; }
  details:not([open]) { display: none; }
  .scroll { overflow: visible; }
  table { font-size: 8.4pt; }
  th, td { padding: .5mm 1.2mm; }
  thead { display: table-header-group; }
  svg, .answer div { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;
