import type { BookReport } from '../bookReport.ts';
import { channelKey, channelLook } from '../channelMarks.ts';
import { chartFigure, inParts, partWords } from '../chartFigure.ts';
import { type Dot, dotsChart } from '../charts/dotsChart.ts';
import { figures, words } from '../dataTable.ts';
import { shownIn } from '../shown.ts';
import type { Section } from './section.ts';

const mostRows = 36;

/** Products by what a bench hour of them contributes, the best first. */
export function benchHours({ prices, settings }: BookReport): Section | null {
  const shown = shownIn(settings);
  const channels = prices.channels.map(({ channel }) => channel);
  const ranked = prices.products
    .map(({ product, channels: own }) => ({
      product,
      hourly: channels.map(
        (channel) => own.find((each) => each.channel === channel)?.contributionPerHour ?? null,
      ),
    }))
    .map((each) => ({ ...each, best: bestOf(each.hourly) }))
    .filter(({ best }) => best > Number.NEGATIVE_INFINITY)
    .sort((one, other) => other.best - one.best);
  const [first] = ranked;
  if (first === undefined) return null;
  const parts = inParts(ranked, mostRows);
  const channel = channels[first.hourly.indexOf(first.best)]!;
  const pictures = parts.map((part, at) =>
    chartFigure({
      title: `A bench hour earns most with ${first.product} at ${channel}: ${shown.money(first.best)} ${settings.currency}${partWords(at, parts.length)}`,
      key: channelKey(channels),
      kind: 'Products ranked by contribution per bench hour, a mark for each channel',
      draw: (size) =>
        dotsChart(
          {
            rows: part.map(({ product, hourly }) => ({
              label: product,
              dots: hourly.flatMap((figure, at): Dot[] =>
                figure === null ? [] : [{ figure, ...channelLook(at) }],
              ),
            })),
            axisName: `Contribution per bench hour, ${settings.currency}`,
            axis: shown.axis,
            rowPx: 21,
            leftPx: { wide: 150, narrow: 98 },
            seeThrough: false,
            fromZero: true,
          },
          size,
        ),
      table: {
        caption: `Contribution per bench hour, ${settings.currency}`,
        columns: [words('Product'), ...channels.map(figures)],
        rows: part.map(({ product, hourly }) => ({
          cells: [product, ...hourly.map((each) => (each === null ? '' : shown.money(each)))],
        })),
      },
    }),
  );
  return {
    id: 'hours',
    title: 'Which piece earns most of your time?',
    link: 'Contribution per bench hour',
    html: `<p>Contribution is the net price less fees, postage, materials and labour: what one piece more brings.</p>
${pictures.join('\n')}`,
  };
}

function bestOf(figures: readonly (number | null)[]): number {
  return Math.max(...figures.map((each) => each ?? Number.NEGATIVE_INFINITY));
}
