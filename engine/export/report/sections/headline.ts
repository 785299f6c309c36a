import { escaped } from '../../escaped.ts';
import type { BookReport } from '../bookReport.ts';
import { counted, extreme, shownIn } from '../shown.ts';

/** The answer first: what there is, what is under its floor, and what the month brings. */
export function headline(report: BookReport): string {
  const { prices, month, settings, breakEven } = report;
  const { money, share } = shownIn(settings);
  const all = prices.products.flatMap(({ product, channels }) =>
    channels.map((price) => ({ product, price })),
  );
  const under = all.filter(({ price }) => price.underFloor);
  const byHand = all.filter(({ price }) => price.setByHand);
  const figure = (name: string, shown: string, small = '', look = false): string =>
    `<div${look ? ' class="look"' : ''}><dt>${escaped(name)}</dt><dd>${escaped(shown)}${small === '' ? '' : ` <small>${escaped(small)}</small>`}</dd></div>`;
  const least = extreme(all, ({ price }) => price.margin, 'least');
  const figures = [
    ...(month === null
      ? []
      : [
          figure('Profit of the month', money(month.profit), prices.currency, month.profit < 0),
          ...(month.breakEvenRatio === null || breakEven === null
            ? []
            : [figure('Break-even', share(month.breakEvenRatio), 'of expected sales')]),
        ]),
    figure('Prices under their floor', String(under.length), `of ${all.length}`, under.length > 0),
    figure('Prices set by hand', String(byHand.length), `of ${all.length}`),
    figure('Products', String(prices.products.length)),
    figure('Channels', String(prices.channels.length)),
  ];
  const listed = under
    .slice(0, 8)
    .map(({ product, price }) => `<bdi>${escaped(product)}</bdi> (<bdi>${escaped(price.channel)}</bdi>)`)
    .join(', ');
  const more = under.length > 8 ? `, and ${under.length - 8} more` : '';
  const sentence =
    all.length === 0
      ? 'Nothing is priced in this book yet.'
      : under.length > 0
        ? `<span class="bad">▲ ${escaped(counted(under.length, 'price is', 'prices are'))} under the floor:</span> ${listed}${more}. Each of these sales loses money.`
        : least === undefined
          ? ''
          : `No price is under its floor. The least margin is ${escaped(share(least.price.margin))}: <bdi>${escaped(least.product)}</bdi> (<bdi>${escaped(least.price.channel)}</bdi>).`;
  return `<dl class="answer">
${figures.join('\n')}
</dl>
<p>${sentence}</p>`;
}
