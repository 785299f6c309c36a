import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';
import { type ChartSize, chartSizes } from './charts/axes.ts';
import type { ChartOption } from './charts/chartOption.ts';
import { drawChart } from './charts/drawChart.ts';
import { type DataTable, dataTable } from './dataTable.ts';

const mostTitle = 160;

export interface ChartFigure {
  /** What is to be seen, or the question that the picture answers. */
  readonly title: string;
  /** HTML before the picture that says how its marks are read; it needs no escaping any more. */
  readonly key?: string;
  readonly draw: (size: ChartSize) => { readonly option: ChartOption; readonly heightPx: number };
  /** What kind of picture it is, and of what: `Bar chart of unit cost by product`. */
  readonly kind: string;
  readonly table: DataTable;
}

/** A picture in both sizes, its title over it and its figures as a table under it. */
export function chartFigure({ title, key, draw, kind, table }: ChartFigure): string {
  const shownTitle = shorten(title, mostTitle);
  const alternative = `${kind}. ${shownTitle}. The table below has the figures.`;
  const pictures = chartSizes.map((size) => {
    const { option, heightPx } = draw(size);
    return drawChart({ option, heightPx, widthPx: size.widthPx, cssClass: size.name, alternative });
  });
  return `<figure>
<figcaption><h3>${escaped(shownTitle)}</h3></figcaption>
${key ?? ''}
${pictures.join('\n')}
<details><summary>Figures of this picture as a table</summary>
${dataTable(table)}
</details>
</figure>`;
}

/** Rows that one picture holds: more would not fit on a page. */
export const rowsOnPage = 40;

/** Parts of a list that each fit into one picture. */
export function inParts<Row>(rows: readonly Row[], most: number): readonly (readonly Row[])[] {
  const parts: Row[][] = [];
  for (let at = 0; at < rows.length; at += most) parts.push(rows.slice(at, at + most));
  return parts;
}

/** ` (part 2 of 3)` where there are several. */
export function partWords(at: number, count: number): string {
  return count > 1 ? ` (part ${at + 1} of ${count})` : '';
}
