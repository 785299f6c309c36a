import type { Settings } from '../../book/settings.ts';
import { showTrimmed } from '../../sheets/showValue.ts';
import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';
import type { Card, CardCord } from './card.ts';
import { cordTint } from './cordTint.ts';
import { feetText, lengthFigure, lengthText, metricFigure, metricUnit } from './lengthText.ts';

/** Of a material's name in a table. */
const mostName = 60;

const count = (value: number, settings: Settings): string => showTrimmed(value, 2, settings);

/** Cords by role: what to cut, both ways, and what a batch takes of it. */
export function cordsTable(card: Card, settings: Settings): string {
  const batch = card.batchSize > 1 || card.asked;
  const rows = card.cords.map(
    (cord) => `<tr><th scope="row"><b>${escaped(cord.role)}</b>${swatch(cord.colour)}${cordWords(cord)}</th>
<td>${count(cord.cords, settings)}</td><td class="cut">${feetText(cord.cutMm, settings)}</td><td class="cut">${metricFigure(cord.cutMm, settings)}</td><td>${lengthFigure(cord.wovenMm, settings.lengthUnit, settings)}</td>${
      batch
        ? `<td>${count(cord.batchCords, settings)}</td><td>${lengthFigure(cord.batchCordMm, settings.cordUnit, settings)}</td>`
        : ''
    }</tr>`,
  );
  const forBatch = `For ${count(card.batchSize, settings)} ${card.batchSize === 1 ? 'piece' : 'pieces'}`;
  return `<div class="scroll"><table>
<thead>
<tr><th scope="col" rowspan="2">Role and cord</th><th scope="col" rowspan="2">Cords</th><th scope="colgroup" colspan="2">Cut each</th><th scope="col" rowspan="2">In the weave, ${settings.lengthUnit}</th>${batch ? `<th scope="colgroup" colspan="2">${forBatch}</th>` : ''}</tr>
<tr><th scope="col">ft and in</th><th scope="col">${metricUnit(settings)}</th>${batch ? `<th scope="col">Cords</th><th scope="col">Cord, ${settings.cordUnit}</th>` : ''}</tr>
</thead>
<tbody>
${rows.join('\n')}
</tbody>
</table></div>`;
}

function cordWords(cord: CardCord): string {
  const colour = cord.colour.trim();
  const known = cord.cord.toLowerCase().includes(colour.toLowerCase());
  const words = known ? cord.cord : `${cord.cord} (${shorten(colour, 40)})`;
  const strands = cord.strandsInEach > 1 ? `, laid in ${cord.strandsInEach} strands` : '';
  return `<bdi>${escaped(shorten(words, mostName + 42))}</bdi>${strands}`;
}

/** A patch of the cord's colour; hatched where the colour is not a word that is known. Its name stands beside it. */
function swatch(colour: string): string {
  const tint = cordTint(colour);
  const hatch =
    tint === undefined
      ? '<path class="hatch" stroke-width="1" d="M2 9L8 1M7 9L13 1M12 9L18 1M17 9L23 1"/>'
      : '';
  return `<svg class="swatch" viewBox="0 0 24 10" aria-hidden="true"><rect x=".5" y=".5" width="23" height="9" rx="3" fill="${tint ?? '#F3F1EC'}" stroke="#22303C"/>${hatch}</svg>`;
}

/** What else goes into a piece; nothing where nothing does. */
export function partsTable(card: Card, settings: Settings): string {
  if (card.parts.length === 0) return '';
  const batch = card.batchSize > 1 || card.asked;
  const rows = card.parts.map((part) => {
    const amount = (value: number): string =>
      part.measuredBy === 'length' ? lengthText(value, settings) : count(value, settings);
    const named = part.name === '' || part.name.toLowerCase() === part.material.toLowerCase();
    return `<tr><th scope="row"><bdi>${escaped(shorten(part.material, mostName))}</bdi>${named ? '' : ` <span class="soft"><bdi>${escaped(shorten(part.name, mostName))}</bdi></span>`}</th><td>${amount(part.quantity)}</td>${batch ? `<td>${amount(part.batchQuantity)}</td>` : ''}</tr>`;
  });
  return `<section>
<h3>Hardware and parts</h3>
<table>
<thead><tr><th scope="col">Part</th><th scope="col">Each piece</th>${batch ? `<th scope="col">For ${count(card.batchSize, settings)}</th>` : ''}</tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
</section>`;
}

/** Steps in the order of the book, and what they come to. */
export function minutesTable(card: Card, settings: Settings): string {
  const minutes = (value: number): string => (value === 0 ? '–' : showTrimmed(value, 2, settings));
  const rows = card.steps.map(
    (step) =>
      `<tr><th scope="row"><bdi>${escaped(shorten(step.step, mostName))}</bdi></th><td>${minutes(step.minutesPerBatch)}</td><td>${minutes(step.minutesPerPiece)}</td><td>${minutes(step.minutesPerLength)}</td></tr>`,
  );
  const whole = (value: number): string => showTrimmed(value, 1, settings);
  const batch =
    card.batchSize > 1 || card.asked
      ? `, ${whole(card.batchMinutes)} for the batch of ${count(card.batchSize, settings)}`
      : '';
  const table =
    rows.length === 0
      ? ''
      : `<table>
${card.layers > 1 ? '<caption>Those by length count once for each layer</caption>' : ''}
<thead><tr><th scope="col">Step</th><th scope="col">Batch</th><th scope="col">Piece</th><th scope="col">Per ${settings.lengthUnit} woven</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>`;
  return `<section>
<h3>Bench minutes</h3>
<p><strong>${whole(card.minutesPerPiece)} a piece</strong>${batch}.</p>
${table}
</section>`;
}
