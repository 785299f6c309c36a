import type { Style } from './style.ts';

export interface TableColumn {
  readonly heading: string;
  readonly align: 'left' | 'right';
}

/** A row of cells, or a quiet sub-heading over the rows that follow. */
export type TableRow = readonly string[] | { readonly group: string };

const gap = '  ';

/**
 * Lays out a table without rules. Headings break at spaces so that a column is no wider than its cells need;
 * the last left-aligned text is cut with an ellipsis where the table would not fit.
 */
export function table(
  columns: readonly TableColumn[],
  rows: readonly TableRow[],
  width: number,
  style: Style,
): string {
  const cells = rows.filter((row): row is readonly string[] => Array.isArray(row));
  const cellWidths = (at: number): number[] => cells.map((row) => textWidth(row[at] ?? ''));
  const headings = columns.map((column, at) => {
    return wrap(column.heading, widest(cellWidths(at), longestWord(column.heading)));
  });
  const widths = columns.map((_, at) => widest((headings[at] ?? []).map(textWidth), widest(cellWidths(at))));
  shrink(widths, columns, width);
  const height = widest(headings.map((lines) => lines.length));
  const lines: string[] = [];
  for (let line = 0; line < height; line += 1) {
    const text = columns.map((column, at) => {
      const own = headings[at] ?? [];
      return pad(own[line - (height - own.length)] ?? '', widths[at] ?? 0, column.align);
    });
    lines.push(style.heading(text.join(gap).trimEnd()));
  }
  for (const row of rows) {
    if ('group' in row) lines.push(style.quiet(row.group));
    else
      lines.push(
        columns
          .map((column, at) => pad(row[at] ?? '', widths[at] ?? 0, column.align))
          .join(gap)
          .trimEnd(),
      );
  }
  return `${lines.join('\n')}\n`;
}

/** Width on the screen: accents do not count, wide characters count double. */
export function textWidth(text: string): number {
  let width = 0;
  for (const character of text.normalize('NFC')) {
    if (/\p{Mn}|\p{Cf}/u.test(character)) continue;
    width +=
      /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}/u.test(
        character,
      )
        ? 2
        : 1;
  }
  return width;
}

/** The greatest of the widths. Not by Math.max(...): a big book has more rows than a call takes arguments. */
export function widest(widths: readonly number[], least: number = 0): number {
  return widths.reduce((most, each) => Math.max(most, each), least);
}

function longestWord(text: string): number {
  return widest(text.split(' ').map(textWidth));
}

/** Breaks text at spaces into lines of at most `width`; a longer word stands alone, and a per cent keeps its sign. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/ (?!%)/)) {
    if (line === '') line = word;
    else if (textWidth(line) + 1 + textWidth(word) <= width) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

function shrink(widths: number[], columns: readonly TableColumn[], width: number): void {
  const total = widths.reduce((sum, each) => sum + each, gap.length * (widths.length - 1));
  let surplus = total - width;
  for (let at = columns.length - 1; at >= 0 && surplus > 0; at -= 1) {
    if (columns[at]?.align !== 'left') continue;
    const spare = Math.max(0, Math.min(surplus, (widths[at] ?? 0) - 10));
    widths[at] = (widths[at] ?? 0) - spare;
    surplus -= spare;
  }
}

function pad(text: string, width: number, align: 'left' | 'right'): string {
  const fits = textWidth(text) <= width ? text : `${[...text].slice(0, Math.max(0, width - 1)).join('')}…`;
  const blanks = ' '.repeat(Math.max(0, width - textWidth(fits)));
  return align === 'left' ? fits + blanks : blanks + fits;
}
