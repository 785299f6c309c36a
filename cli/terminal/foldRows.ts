import { type TableColumn, type TableRow, textWidth, widest, wrap } from './table.ts';

const gap = 2;
const indent = '  ';

/**
 * Rows whose left-aligned texts break onto lines below where the table would not fit: a name that is cut cannot be
 * told from its neighbours, nor given back to the program.
 *
 * @param least no text is made narrower than this, its longest word aside
 */
export function foldRows(
  columns: readonly TableColumn[],
  rows: readonly TableRow[],
  width: number,
  least: number,
): TableRow[] {
  const widths = columns.map(({ heading }, at) =>
    widest(
      rows.map((row) => ('group' in row ? 0 : textWidth(row[at] ?? ''))),
      widest(heading.split(' ').map(textWidth)),
    ),
  );
  let surplus = widths.reduce((sum, each) => sum + each, gap * (widths.length - 1)) - width;
  const folded = new Map<number, number>();
  for (let at = columns.length - 1; at >= 0 && surplus > 0; at -= 1) {
    const natural = widths[at] ?? 0;
    if (columns[at]?.align !== 'left' || natural <= least) continue;
    const narrow = Math.max(least, natural - surplus);
    folded.set(at, narrow);
    surplus -= natural - narrow;
  }
  if (folded.size === 0) return [...rows];
  return rows.flatMap((row): TableRow[] => {
    if ('group' in row) return [row];
    const lines = row.map((cell, at) => broken(cell, folded.get(at)));
    const height = widest(lines.map((each) => each.length));
    return Array.from({ length: height }, (_, line) => lines.map((each) => each[line] ?? ''));
  });
}

function broken(text: string, width: number | undefined): string[] {
  if (width === undefined || textWidth(text) <= width) return [text];
  const [first = '', ...rest] = wrap(text, width);
  // What follows is indented, so it is broken anew to its own width.
  return [first, ...wrap(rest.join(' '), width - indent.length).map((line) => indent + line)];
}
