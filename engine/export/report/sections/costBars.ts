import type { BookReport } from '../bookReport.ts';
import { chartFigure, inParts, partWords } from '../chartFigure.ts';
import { type CostBar, costChart, costParts } from '../charts/costChart.ts';
import { figures, words } from '../dataTable.ts';
import { key } from '../key.ts';
import { extreme, shownIn } from '../shown.ts';
import type { Section } from './section.ts';

const mostBars = 36;

/** What each product costs to make, in stacked bars. */
export function costBars(report: BookReport): Section | null {
  const { prices, costs, settings } = report;
  const shown = shownIn(settings);
  const materials = new Map(costs.map((each) => [each.product, each]));
  const bars = prices.products.map(
    ({ product, labour, overhead, unitCost }): CostBar => ({
      product,
      cords: materials.get(product)?.cords ?? 0,
      parts: materials.get(product)?.parts ?? 0,
      labour,
      overhead,
      unitCost,
    }),
  );
  const dear = extreme(bars, ({ unitCost }) => unitCost, 'most');
  const cheap = extreme(bars, ({ unitCost }) => unitCost, 'least');
  if (dear === undefined || cheap === undefined) return null;
  const sums = `From ${shown.money(cheap.unitCost)} (${cheap.product}) to ${shown.money(dear.unitCost)} ${settings.currency} (${dear.product})`;
  const parts = inParts(bars, mostBars);
  const pictures = parts.map((part, at) =>
    chartFigure({
      title: `${sums}${partWords(at, parts.length)}`,
      key: key(['cords', 'parts', 'labour', 'overhead']),
      kind: 'Stacked bars of what each product costs to make: cord and webbing, parts, labour, overhead',
      draw: (size) => costChart(part, shown, size),
      table: {
        caption: `What each product costs to make, ${settings.currency}`,
        columns: [words('Product'), ...costParts.map(({ name }) => figures(name)), figures('Unit cost')],
        rows: part.map((bar) => ({
          cells: [bar.product, ...costParts.map(({ id }) => shown.money(bar[id])), shown.money(bar.unitCost)],
        })),
      },
    }),
  );
  return { id: 'costs', title: 'What does a piece cost to make?', link: 'Costs', html: pictures.join('\n') };
}
