import type { BookReport } from '../bookReport.ts';
import { chartFigure } from '../chartFigure.ts';
import { type Dot, type DotRow, dotsChart } from '../charts/dotsChart.ts';
import { figures, words } from '../dataTable.ts';
import { key } from '../key.ts';
import { axisShare, extreme, shownIn } from '../shown.ts';
import type { Section } from './section.ts';

/** What is left of the net price in each channel, product by product. */
export function channelMargins({ prices, settings }: BookReport): Section | null {
  const { share } = shownIn(settings);
  const all = prices.products.flatMap(({ product, channels }) =>
    channels.map((price) => ({ product, price })),
  );
  const least = extreme(all, ({ price }) => price.margin, 'least');
  if (least === undefined) return null;
  const rows = prices.channels.map(({ channel, name }): DotRow => {
    const here = all.filter(({ price }) => price.channel === channel);
    const low = extreme(here, ({ price }) => price.margin, 'least');
    const high = extreme(here, ({ price }) => price.margin, 'most');
    return {
      label: channel || name,
      words: low && high ? `${share(low.price.margin)} to ${share(high.price.margin)}` : '',
      dots: here.map(
        ({ price }): Dot =>
          price.underFloor
            ? { figure: price.margin, mark: 'triangle', colour: 'bad' }
            : { figure: price.margin, mark: 'circle', colour: 'accent' },
      ),
    };
  });
  const figure = chartFigure({
    title: `Margins are least at ${least.price.channel}: ${share(least.price.margin)} for ${least.product}`,
    key: key(all.some(({ price }) => price.underFloor) ? ['dot', 'underFloor'] : ['dot']),
    kind: 'Margin on the net price of each product, a row of dots for each channel',
    draw: (size) =>
      dotsChart(
        {
          rows,
          axisName: 'Margin on the net price, %',
          axis: axisShare(settings),
          rowPx: 44,
          leftPx: { wide: 110, narrow: 74 },
          seeThrough: true,
          fromZero: true,
        },
        size,
      ),
    table: {
      caption: 'Margin on the net price, %',
      columns: [words('Product'), ...prices.channels.map(({ channel }) => figures(channel))],
      rows: prices.products.map(({ product, channels }) => ({
        cells: [
          product,
          ...prices.channels.map(({ channel }) => {
            const price = channels.find((each) => each.channel === channel);
            return price === undefined ? '' : `${share(price.margin)}${price.underFloor ? ' ▲' : ''}`;
          }),
        ],
      })),
    },
  });
  return {
    id: 'margins',
    title: 'What is left of the price in each channel?',
    link: 'Margins by channel',
    html: figure,
  };
}
