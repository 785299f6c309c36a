import { type CsvCell, csvCell, csvRows, isQuotedAnyway } from './csvCells.ts';
import { delimiterOf, parseHeading } from './csvFile.ts';

/** Changes of a table, by the row numbers that a spreadsheet program shows. */
export interface RowEdits {
  /** New texts of cells, by row and column; an empty map changes nothing. */
  readonly set: ReadonlyMap<number, ReadonlyMap<string, string>>;
  readonly remove: ReadonlySet<number>;
  /** Rows to put at the end, as texts by column. */
  readonly add: readonly ReadonlyMap<string, string>[];
}

/**
 * Changes, removes and adds rows of a table and leaves every other character of the file as it is: order,
 * separators, quotes, line ends, blank lines, a byte-order mark. A column without a heading gets one at the right.
 *
 * @param columns headings of a table that is made anew, where the text is blank
 * @param separator of a table that is made anew
 */
export function editRows(
  text: string,
  edits: RowEdits,
  columns: readonly string[],
  separator: ',' | ';' | '\t' = ',',
): string {
  if (text.replace(/^\uFEFF/, '').trim() === '') {
    const line = (cells: readonly string[]): string =>
      cells.map((cell) => csvCell(cell, separator, false)).join(separator);
    const used = [...new Set([...columns, ...edits.add.flatMap((cells) => [...cells.keys()])])];
    const rows = edits.add.map((cells) => used.map((column) => cells.get(column) ?? ''));
    return `${[used, ...rows].map(line).join('\n')}\n`;
  }
  const mark = delimiterOf(text.replace(/^\uFEFF/, ''));
  const rows = csvRows(text, mark);
  const headAt = rows.findIndex((row) => row.cells.some((cell) => cell.text.trim() !== ''));
  const head = rows[headAt];
  if (head === undefined) throw new Error('A table with text has a row');
  const known = head.cells.map((cell) => parseHeading(cell.text).id);
  while (known.length > 0 && known.at(-1) === '') known.pop();
  const given = known.length;
  const placeOf = (column: string): number => {
    const at = known.indexOf(column);
    return at >= 0 ? at : known.push(column) - 1;
  };
  const changes: { start: number; end: number; text: string }[] = [];
  rows.forEach((row, index) => {
    const number = index + 1;
    if (edits.remove.has(number)) {
      changes.push({
        start: startOf(row.cells[0]!.start, text),
        end: row.end + row.lineEnd.length,
        text: '',
      });
      return;
    }
    const beyond = new Map<number, string>();
    for (const [column, value] of edits.set.get(number) ?? []) {
      const at = placeOf(column);
      const cell = row.cells[at];
      if (cell === undefined) beyond.set(at, value);
      else if (cell.text.trim() !== value)
        changes.push({
          start: cell.start,
          end: cell.end,
          text: csvCell(value, mark, isQuotedAnyway(cell, mark)),
        });
    }
    let tail = '';
    for (let at = row.cells.length; at <= Math.max(-1, ...beyond.keys()); at += 1)
      tail += `${mark}${csvCell(beyond.get(at) ?? '', mark, false)}`;
    if (tail !== '') changes.push({ start: row.end, end: row.end, text: tail });
  });
  for (const cells of edits.add) for (const column of cells.keys()) placeOf(column);
  if (edits.add.length > 0) {
    // The last row that stays shows which cells this file puts in quotes.
    const model = rows.findLast(
      (row, at) => at > headAt && !edits.remove.has(at + 1) && row.cells.some((cell) => cell.text !== ''),
    );
    const lineEnd = head.lineEnd === '' ? '\n' : head.lineEnd;
    const last = rows.at(-1)!;
    const open = last.lineEnd === '' && last.end > last.cells[0]!.start && !edits.remove.has(rows.length);
    const inQuotes = (cell: CsvCell | undefined): boolean => cell !== undefined && isQuotedAnyway(cell, mark);
    const lines = edits.add.map((cells) =>
      known
        .map((column, at) => csvCell(cells.get(column) ?? '', mark, inQuotes(model?.cells[at])))
        .join(mark),
    );
    const block = lines.join(lineEnd);
    changes.push({
      start: text.length,
      end: text.length,
      text: open ? `${lineEnd}${block}` : `${block}${lineEnd}`,
    });
  }
  if (known.length > given) {
    const quoted = head.cells[given - 1]!.quoted;
    const at = head.cells[given - 1]!.end;
    const added = known
      .slice(given)
      .map((column) => `${mark}${csvCell(column, mark, quoted)}`)
      .join('');
    changes.push({ start: at, end: at, text: added });
  }
  let result = text;
  // From the end; of those in one place, what was asked for last goes in last and stands first.
  const order = changes.map((change, at) => ({ ...change, at }));
  for (const change of order.sort((one, other) => other.start - one.start || other.at - one.at))
    result = result.slice(0, change.start) + change.text + result.slice(change.end);
  return result;
}

/** A byte-order mark is no part of the first row. */
function startOf(start: number, text: string): number {
  return text.startsWith('\uFEFF') ? Math.max(1, start) : start;
}
