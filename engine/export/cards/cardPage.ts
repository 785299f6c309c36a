import { convertWeight } from '../../book/measures/weight.ts';
import type { Settings } from '../../book/settings.ts';
import { digitsOf, showTrimmed } from '../../sheets/showValue.ts';
import { escaped } from '../escaped.ts';
import type { About } from '../pages/pageSetup.ts';
import { shorten } from '../shorten.ts';
import type { Card, CardReport } from './card.ts';
import { cardStyle } from './cardStyle.ts';
import { cordsTable, minutesTable, partsTable } from './cardTables.ts';
import { feetText, fineText, lengthText } from './lengthText.ts';
import { knotWords, setUpFigure } from './setUpFigure.ts';

/** Of a card's heading; longer names would push figures off the page. */
const mostHeading = 160;
/** Millimetres of paper that a figure takes: between the margins of A4 and Letter, and of a telephone. */
const wideMm = 178;
const narrowMm = 90;

/** Nothing is fetched and nothing runs: styles stand in the page, and pictures are drawn in it. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/** Bench cards as one HTML file that needs nothing beside it: one product a printed page. */
export function cardPage(report: CardReport, settings: Settings, about: About): string {
  const { cards } = report;
  const title = `Bench cards${report.workshop === '' ? '' : `: ${report.workshop}`}`;
  const links = cards.map(
    (card, at) => `<li><a href="#card-${at + 1}"><bdi>${escaped(headingOf(card))}</bdi></a></li>`,
  );
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(shorten(title, mostHeading))}</title>
<style>${cardStyle}</style>
</head>
<body>
<main>
<div class="screen">
<h1>${escaped(shorten(title, mostHeading))}</h1>
<p>One card a product, one card a page: print it on A4 or Letter at 100 %, so that drawings at full size are just that.</p>
<nav aria-label="Cards"><ul>
${links.join('\n')}
</ul></nav>
</div>
${cards.map((card, at) => cardHtml(card, at + 1, report, settings, about)).join('\n')}
</main>
</body>
</html>
`;
}

function headingOf(card: Card): string {
  return shorten(card.size === '' ? card.name : `${card.name}, ${card.size}`, mostHeading);
}

function cardHtml(card: Card, number: number, report: CardReport, settings: Settings, about: About): string {
  const id = `card-${number}`;
  const count = (value: number): string => showTrimmed(value, 0, settings);
  const figure = (widthMm: number, kind: 'wide' | 'narrow'): string =>
    setUpFigure(card, settings, widthMm, `${id}-${kind}`).replace('<svg ', `<svg class="${kind}" `);
  const make = card.asked
    ? `<strong>Make ${count(card.batchSize)}.</strong> `
    : card.batchSize > 1
      ? `Batch of ${count(card.batchSize)}. `
      : '';
  return `<article class="card" id="${id}" aria-labelledby="${id}-name">
<header>
<h2 id="${id}-name"><bdi>${escaped(headingOf(card))}</bdi></h2>
<p>${make}${weaveWords(card, settings)} <span class="soft"><bdi>${escaped(card.product)}</bdi>${card.family === '' ? '' : `, <bdi>${escaped(shorten(card.family, 80))}</bdi>`}</span></p>
</header>
<section>
<h3>Cut</h3>
${cordsTable(card, settings)}
${numbersWords(card)}
</section>
<section>
<h3>Set-up</h3>
<figure>
${figure(wideMm, 'wide')}
${figure(narrowMm, 'narrow')}
</figure>
</section>
<div class="pair">
<div>
${setUpList(card, settings)}
${partsTable(card, settings)}
</div>
${minutesTable(card, settings)}
</div>
<section class="cautions">
<h3>Cautions</h3>
<ul>
${report.cautions.map(({ about: on, says }) => `<li><b>${escaped(on)}:</b> ${escaped(says)}</li>`).join('\n')}
</ul>
</section>
<footer><bdi>${escaped(shorten(report.workshop, 80))}</bdi>${report.workshop === '' ? '' : ' · '}card ${number} of ${report.cards.length} · ${escaped(about.date)} · Sennit ${escaped(about.version)}</footer>
</article>`;
}

function weaveWords(card: Card, settings: Settings): string {
  const layers =
    card.layers > 1
      ? `, ${showTrimmed(card.layers, 0, settings)} layers`
      : card.mostLayers > 1
        ? ', one layer'
        : '';
  const pitch =
    card.pitchRatio === null ? '' : `, pitch ${showTrimmed(card.pitchRatio, 3, settings)} cord diameters`;
  const angle =
    card.angleDegrees === null
      ? ''
      : `, ${showTrimmed(card.angleDegrees, 1, settings)} degrees to the length`;
  return `<bdi>${escaped(shorten(card.weaveName, 80))}</bdi>${layers}${pitch}${angle}.`;
}

function numbersWords(card: Card): string {
  return card.numbers === 'measured'
    ? '<p><span class="kind measured">Measured:</span> lengths come from your own test pieces.</p>'
    : '<p><span class="kind estimated">Estimated:</span> lengths come from geometry. Make one piece and measure it before you cut a batch.</p>';
}

function setUpList(card: Card, settings: Settings): string {
  const core = card.cords.find(({ role }) => role === 'core');
  const count = (value: number): string => showTrimmed(value, 0, settings);
  const lines: [string, string][] = [];
  if (core !== undefined) {
    lines.push([
      'Core',
      `${count(core.strandsInEach)} ${core.strandsInEach === 1 ? 'strand' : 'strands'} of ${core.cord}, cut ${settings.lengthUnit === 'in' ? feetText(core.cutMm, settings) : lengthText(core.cutMm, settings)}`,
    ]);
  }
  if (card.hitches > 0) {
    const bar = card.hardwareBarMm === null ? '' : ` on a bar of ${fineText(card.hardwareBarMm, settings)}`;
    lines.push(['Hitches', `${count(card.hitches)}${bar}`]);
  }
  if (card.slotWidthMm !== null) {
    const fits =
      card.strandsAcross === null ? '' : `, takes ${count(card.strandsAcross)} strands side by side`;
    lines.push(['Slot', `${fineText(card.slotWidthMm, settings)}${fits}`]);
  }
  if (card.fitsFromMm !== null) {
    const to = card.fitsToMm ?? card.fitsFromMm;
    const range = to - card.fitsFromMm > 0.05 ? ` to ${lengthText(to, settings)}` : '';
    lines.push(['Fits round', `${lengthText(card.fitsFromMm, settings)}${range}`]);
  }
  if (card.knots !== null) lines.push(['Count', knotWords(card, settings)]);
  for (const end of card.ends) {
    const many = end.count > 1 ? `${count(end.count)} x ` : '';
    const size = end.sizeMm === null ? '' : ` of ${lengthText(end.sizeMm, settings)}`;
    lines.push([`End, ${end.where}`, `${many}${end.name}${size}, in each ${end.role} cord`]);
  }
  if (card.weightG !== null) {
    const unit = settings.weightUnit;
    const shown = showTrimmed(convertWeight(card.weightG, 'g', unit), digitsOf('weight', settings), settings);
    lines.push(['Weight', `${shown} ${unit}${card.weightFrom === '' ? '' : ` (${card.weightFrom})`}`]);
  }
  if (lines.length === 0) return '';
  return `<section>
<h3>Core, ends and weight</h3>
<dl>${lines.map(([name, text]) => `<div><dt>${escaped(shorten(name, 40))}</dt><dd>${escaped(shorten(text, 120))}</dd></div>`).join('')}</dl>
</section>`;
}
