/** A cell of a table: strokes would end it. */
const cell = (text: string): string => text.replaceAll('|', '\\|').replace(/\s+/g, ' ').trim();

/** A table of a page; columns without any text are left out. */
export function markdownTable(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const kept = headings.map((_, column) => rows.some((row) => (row[column] ?? '') !== ''));
  const line = (cells: readonly string[]): string =>
    `| ${cells
      .filter((_, column) => kept[column])
      .map(cell)
      .join(' | ')} |`;
  return [
    line(headings),
    `|${kept
      .filter((each) => each)
      .map(() => '---|')
      .join('')}`,
    ...rows.map(line),
  ].join('\n');
}

/** How the page that a heading stands on links to it. */
export function anchor(heading: string): string {
  return `#${heading
    .toLowerCase()
    .replace(/[^\w\- ]/g, '')
    .replaceAll(' ', '-')}`;
}

/** Whole words in the type of program text. */
export const code = (text: string): string => (text === '' ? '' : `\`${text}\``);
