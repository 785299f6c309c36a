import type { ProductPrice } from '../../answers/priceReport.ts';
import { escaped } from '../../escaped.ts';
import type { BookReport } from '../bookReport.ts';
import { chartFigure, inParts, partWords, rowsOnPage } from '../chartFigure.ts';
import { ladderChart } from '../charts/ladderChart.ts';
import { figures, words } from '../dataTable.ts';
import { key } from '../key.ts';
import { counted, shownIn } from '../shown.ts';
import type { Section } from './section.ts';

/** Floor, target and asking price of every product, a picture for each family. */
export function priceLadders(report: BookReport): Section | null {
  const families = new Map<string, ProductPrice[]>();
  for (const product of report.prices.products) {
    if (product.channels.length === 0) continue;
    families.set(product.family, [...(families.get(product.family) ?? []), product]);
  }
  if (families.size === 0) return null;
  const perPicture = Math.max(1, Math.floor(rowsOnPage / (report.prices.channels.length + 1)));
  const pictures = [...families].flatMap(([family, products]) => {
    const parts = inParts(products, perPicture);
    return parts.map((part, at) =>
      ladder(report, `${family || 'Other products'}${partWords(at, parts.length)}`, part),
    );
  });
  return {
    id: 'prices',
    title: 'What does each piece ask, and how far is that from its floor?',
    link: 'Prices: floor, target, asking',
    html: `<p>At the floor price nothing is lost and nothing earned; the target price earns the wanted margin. Prices stand as on the ticket.${channelWords(report)}</p>
${key(['floor', 'target', 'asking', 'byHand', 'underFloor'])}
${pictures.join('\n')}`,
  };
}

/** Which channels' prices hold the tax. */
function channelWords({ prices }: BookReport): string {
  const inside = prices.channels.filter(({ pricesIncludeTax }) => pricesIncludeTax);
  if (inside.length === 0) return ' Tax comes on top.';
  const names = inside.map(({ channel }) => `<bdi>${escaped(channel)}</bdi>`).join(', ');
  return inside.length === prices.channels.length ? ' Tax is inside.' : ` Tax is inside at ${names} only.`;
}

function ladder({ settings }: BookReport, name: string, products: readonly ProductPrice[]): string {
  const shown = shownIn(settings);
  const prices = products.flatMap(({ channels }) => channels);
  const under = prices.filter(({ underFloor }) => underFloor).length;
  const finding =
    under === 0
      ? 'no price is under its floor'
      : `${counted(under, 'price is', 'prices are')} under the floor`;
  const money = (heading: string) => figures(`${heading}, ${settings.currency}`);
  return chartFigure({
    title: `${name}: ${finding}`,
    kind: 'Price ladder: floor, target and asking price of each product in each channel',
    draw: (size) => ladderChart(products, shown, size),
    table: {
      caption: `Prices of ${name}, as on the ticket`,
      columns: [words('Channel'), money('Floor'), money('Target'), money('Asks'), words('State')],
      rows: products.flatMap((product) => [
        { group: product.product },
        ...product.channels.map((price) => ({
          cells: [
            price.channel,
            shown.money(price.floor),
            shown.money(price.target),
            shown.money(price.asking),
            [price.underFloor ? 'under its floor' : '', price.setByHand ? 'set by hand' : '']
              .filter((each) => each !== '')
              .join(', '),
          ],
        })),
      ]),
    },
  });
}
