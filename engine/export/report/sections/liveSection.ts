import { escaped } from '../../escaped.ts';
import { shorten } from '../../shorten.ts';
import type { BookReport } from '../bookReport.ts';
import { todaysState } from '../live/liveCalculation.ts';
import type { LiveModel, Slider } from '../live/liveModel.ts';
import { liveCells, liveSummary, movedWords } from '../live/liveWords.ts';
import { shownIn } from '../shown.ts';
import type { Section } from './section.ts';

/** Sliders, and a table of every price that follows them. Without JavaScript it stands as it is today. */
export function liveSection({ live, settings }: BookReport): Section | null {
  if (live === null) return null;
  const { model } = live;
  const { money } = shownIn(settings);
  const state = todaysState(model);
  let product: string | undefined;
  const rows = model.rows.flatMap((today, row) => {
    const price = state.prices[row];
    if (price === undefined) return [];
    const head =
      today.product === product
        ? []
        : [
            `<tr><th scope="rowgroup" colspan="6" class="group"><bdi>${escaped(shorten(today.product, 60))}</bdi></th></tr>`,
          ];
    const opening = head.length === 0 ? '' : `${product === undefined ? '' : '</tbody>\n'}<tbody>\n`;
    product = today.product;
    const [asks, margin, contribution, words] = liveCells(price, today, model);
    return [
      `${opening}${head.join('')}<tr data-live><th scope="row"><bdi>${escaped(shorten(today.channel, 40))}</bdi></th><td>${escaped(money(today.asking))}</td><td>${escaped(asks)}</td><td>${escaped(margin)}</td><td>${escaped(contribution)}</td><td class="text words">${escaped(words)}</td></tr>`,
    ];
  });
  return {
    id: 'try',
    title: 'What if wage, cord, margin or overhead were other than today?',
    link: 'Try other figures',
    html: `<noscript><p>To move these figures, open this page in a browser with JavaScript switched on. Below they stand as they are today.</p></noscript>
<div class="controls" hidden>
<fieldset class="sliders"><legend>Figures to move</legend>
${model.sliders.map(sliderHtml).join('\n')}
<p><button type="button" id="reset">Back to today’s figures</button></p>
</fieldset>
</div>
<p id="live-moved" class="soft">${escaped(movedWords([], model))}</p>
<p id="live-summary">${escaped(liveSummary(state, model))}</p>
<p class="unseen" aria-live="polite" id="live-told"></p>
<div class="scroll" role="region" tabindex="0" aria-label="Every price with these figures"><table id="live-table">
<caption>Margin and contribution are at today’s asking price; “asks then” keeps the margin. Amounts in ${escaped(settings.currency)}.</caption>
<thead><tr><th scope="col">Channel</th><th scope="col">Asks today</th><th scope="col">Asks then</th><th scope="col">Margin</th><th scope="col">Contri&shy;bution</th><th scope="col" class="text">State</th></tr></thead>
${rows.join('\n')}
</tbody>
</table></div>`,
  };
}

function sliderHtml(slider: Slider): string {
  const { id, label, unit, note, today, min, max, step } = slider;
  const bounds = `min="${min}" max="${max}" value="${today}"`;
  return `<div class="slider">
<label for="${id}-range">${escaped(label)}</label>
<input type="range" id="${id}-range" ${bounds} step="${step}" aria-describedby="${id}-note">
<input type="number" id="${id}-number" ${bounds} step="any" aria-label="${escaped(`${label}, ${unit}, as a number`)}" aria-describedby="${id}-wrong">
<span class="unit">${escaped(unit)}</span>
<span class="wrong" id="${id}-wrong" hidden></span>
<span class="soft" id="${id}-note">${escaped(note)}</span>
</div>`;
}

/** The model as JavaScript that may stand in a page, whatever names are in it. */
export function modelSource(model: LiveModel): string {
  return JSON.stringify(model).replace(
    /[<>&\u2028\u2029]/g,
    (each) => `\\u${each.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
