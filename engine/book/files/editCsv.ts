import { sameKey } from '../book.ts';
import { csvCell, csvRows } from './csvCells.ts';
import { delimiterOf, parseHeading } from './csvFile.ts';

/**
 * Sets cells of the row that has this key, and leaves every other character of the file as it is: order,
 * separators, quotes, line ends, a byte-order mark. A column without a heading gets one at the right. A row
 * that is missing is added at the end; an empty text becomes a table.
 *
 * @param cells new text by column; columns that are not named keep what they hold
 * @param separator of a table that is made anew
 * @returns the new text, and what stood in the cells before (blank where nothing did)
 */
export function editCsv(
  text: string,
  keyColumn: string,
  key: string,
  cells: ReadonlyMap<string, string>,
  separator: ',' | ';' | '\t' = ',',
): { text: string; before: ReadonlyMap<string, string> } {
  if (text.replace(/^\uFEFF/, '').trim() === '') {
    const line = (each: Iterable<string>): string =>
      [...each].map((cell) => csvCell(cell, separator, false)).join(separator);
    const all = new Map([[keyColumn, key], ...cells]);
    return { text: `${line(all.keys())}\n${line(all.values())}\n`, before: new Map() };
  }
  const mark = delimiterOf(text.replace(/^\uFEFF/, ''));
  const rows = csvRows(text, mark);
  const [head] = rows;
  if (head === undefined) throw new Error('A table with text has a row');
  const columns = head.cells.map((cell) => parseHeading(cell.text).id);
  const added: string[] = [];
  const positionOf = (column: string): number => {
    const at = columns.indexOf(column);
    if (at >= 0) return at;
    columns.push(column);
    added.push(column);
    return columns.length - 1;
  };
  const keyAt = positionOf(keyColumn);
  const row = rows.slice(1).find((each) => sameKey(each.cells[keyAt]?.text.trim() ?? '') === sameKey(key));
  const before = new Map<string, string>();
  const edits: { start: number; end: number; text: string }[] = [];
  if (row === undefined) {
    const own = new Map([...cells, [keyColumn, key]]);
    for (const column of own.keys()) positionOf(column);
    // The last row that has cells shows which of them this file puts in quotes.
    const model = rows.findLast((each, at) => at > 0 && each.cells.some((cell) => cell.text !== ''));
    const fresh = columns.map((column, at) =>
      csvCell(own.get(column) ?? '', mark, model?.cells[at]?.quoted ?? false),
    );
    const lineEnd = head.lineEnd === '' ? '\n' : head.lineEnd;
    const last = rows.at(-1)!;
    const open = last.lineEnd === '' && last.end > last.cells[0]!.start;
    const line = fresh.join(mark);
    edits.push({
      start: text.length,
      end: text.length,
      text: open ? `${lineEnd}${line}` : `${line}${lineEnd}`,
    });
  } else {
    const beyond = new Map<number, string>();
    for (const [column, value] of cells) {
      const at = positionOf(column);
      const cell = row.cells[at];
      before.set(column, cell?.text.trim() ?? '');
      if (cell === undefined) beyond.set(at, value);
      else if (cell.text.trim() !== value) {
        edits.push({ start: cell.start, end: cell.end, text: csvCell(value, mark, cell.quoted) });
      }
    }
    let tail = '';
    for (let at = row.cells.length; at <= Math.max(-1, ...beyond.keys()); at += 1) {
      tail += `${mark}${csvCell(beyond.get(at) ?? '', mark, false)}`;
    }
    if (tail !== '') edits.push({ start: row.end, end: row.end, text: tail });
  }
  if (added.length > 0) {
    const quoted = head.cells.at(-1)!.quoted;
    const text = added.map((column) => `${mark}${csvCell(column, mark, quoted)}`).join('');
    edits.push({ start: head.end, end: head.end, text });
  }
  let result = text;
  // From the end to the front. Of two at one place, a blank last cell and what follows it, the later goes first.
  for (const edit of edits.reverse().sort((one, other) => other.start - one.start)) {
    result = result.slice(0, edit.start) + edit.text + result.slice(edit.end);
  }
  return { text: result, before };
}
