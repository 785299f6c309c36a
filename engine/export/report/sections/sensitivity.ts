import { showTrimmed, showValue } from '../../../sheets/showValue.ts';
import type { BookReport } from '../bookReport.ts';
import { chartFigure } from '../chartFigure.ts';
import { barsChart } from '../charts/barsChart.ts';
import { figures, words } from '../dataTable.ts';
import { key } from '../key.ts';
import { shownIn } from '../shown.ts';
import type { Section } from './section.ts';

/** What a tenth more or less of each input does, the one that does most on top. */
export function sensitivity({ tornado, settings }: BookReport): Section | null {
  const [most] = tornado.bars;
  if (most === undefined) return null;
  const shown = shownIn(settings);
  const by = showValue(tornado.byRatio, 'percent', settings).replace(/[.,]0 %$/, ' %');
  const measure =
    tornado.measure === 'month'
      ? 'Profit of the month'
      : 'Contribution of one piece of everything in every channel';
  const figure = chartFigure({
    title: `${most.name} moves it most: ${by} less makes it ${shown.money(most.down)}, ${by} more ${shown.money(most.up)} ${settings.currency}`,
    key: key(['down', 'up']),
    kind: `Bars around today’s figure for each input, ${by} less and ${by} more; the widest on top. ${measure}`,
    draw: (size) =>
      barsChart(
        {
          bars: tornado.bars.map(({ name, down, up }) => ({
            label: name,
            spans: [
              { from: tornado.today, to: down, words: shown.money(down), colour: 'tint' },
              { from: tornado.today, to: up, words: shown.money(up), colour: 'accent' },
            ],
          })),
          axisName: `${tornado.measure === 'month' ? measure : 'Contribution'}, ${settings.currency}`,
          axis: (value) => showTrimmed(value, 0, settings),
          leftPx: { wide: 130, narrow: 98 },
          wordsPx: 66,
          base: tornado.today,
        },
        size,
      ),
    table: {
      caption: `${measure}, ${settings.currency}; today ${shown.money(tornado.today)}`,
      columns: [words('Input'), figures(`${by} less`), figures(`${by} more`)],
      rows: tornado.bars.map(({ name, down, up }) => ({ cells: [name, shown.money(down), shown.money(up)] })),
    },
  });
  return {
    id: 'sensitivity',
    title:
      tornado.measure === 'month'
        ? 'What moves the month’s profit most?'
        : 'What moves the contribution most?',
    link: 'What moves it most',
    html: `<p>${measure}, each input ${by} less and ${by} more by itself, today’s asking prices kept. Today it is ${shown.money(tornado.today)} ${settings.currency}.</p>
${figure}`,
  };
}
