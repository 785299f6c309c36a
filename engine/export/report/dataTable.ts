import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';

/** Of a name or a word in a table. */
const mostLetters = 80;

export interface DataColumn {
  readonly heading: string;
  /** Words stand on the left, figures on the right. */
  readonly holds: 'words' | 'figures';
}

/** A row: its first cell names it. A group is a heading over the rows that follow. */
export type DataRow = { readonly group: string } | { readonly cells: readonly string[] };

export interface DataTable {
  readonly caption: string;
  readonly columns: readonly DataColumn[];
  readonly rows: readonly DataRow[];
}

/** The same figures as a picture's, for whoever reads instead of looking. Everything given is text. */
export function dataTable({ caption, columns, rows }: DataTable): string {
  const text = (given: string): string => escaped(shorten(given, mostLetters));
  const head = columns.map(
    ({ heading, holds }) =>
      `<th scope="col"${holds === 'words' ? ' class="text"' : ''}>${text(heading)}</th>`,
  );
  const body = rows.map((row) => {
    if ('group' in row)
      return `<tr><th scope="colgroup" colspan="${columns.length}" class="group"><bdi>${text(row.group)}</bdi></th></tr>`;
    const cells = row.cells.map((cell, at) => {
      if (at === 0) return `<th scope="row"><bdi>${text(cell)}</bdi></th>`;
      return columns[at]?.holds === 'words'
        ? `<td class="text words">${text(cell)}</td>`
        : `<td>${text(cell)}</td>`;
    });
    return `<tr>${cells.join('')}</tr>`;
  });
  return `<div class="scroll" role="region" tabindex="0" aria-label="${text(caption)}"><table>
<caption>${text(caption)}</caption>
<thead><tr>${head.join('')}</tr></thead>
<tbody>
${body.join('\n')}
</tbody>
</table></div>`;
}

export function words(heading: string): DataColumn {
  return { heading, holds: 'words' };
}

export function figures(heading: string): DataColumn {
  return { heading, holds: 'figures' };
}
