import Papa from 'papaparse';
import type { CellValue, PlanColumn, PlanSheet } from '../../engine/sheets/plan.ts';
import { type BookText, shipped } from './books.ts';

/** Names of columns that a sheet takes from a table of another name. */
const sparse: Readonly<Record<string, readonly [file: string, column: string]>> = {
  'prices.asking_set': ['set_prices.csv', 'asking'],
  'prices.wanted_margin_percent': ['set_prices.csv', 'wanted_margin_percent'],
};

/**
 * A book with one input cell written anew, as its maker would do it: in book.yaml, in the row of its table, or in a
 * row of the book's own that stands for a shipped one.
 */
export function editedByHand(
  book: BookText,
  sheet: PlanSheet,
  column: PlanColumn,
  row: number,
  value: CellValue,
): BookText {
  const files = new Map(book);
  const comma = /^decimal:\s*comma/m.test(book.get('book.yaml') ?? '');
  const written = (cell: CellValue): string => {
    if (typeof cell !== 'number') return String(cell ?? '');
    const text = String(column.kind === 'percent' ? cell * 100 : cell);
    return comma ? text.replace('.', ',') : text;
  };
  const place = sheet.places[row];
  if (place?.file === 'book.yaml') {
    const text = files.get('book.yaml') ?? '';
    const line = new RegExp(`^${column.id}:.*$`, 'm');
    const fresh = `${column.id}: ${written(value)}`;
    files.set('book.yaml', line.test(text) ? text.replace(line, fresh) : `${text}\n${fresh}\n`);
    return files;
  }
  const keys = sheet.key.map((id) =>
    String(sheet.columns.find((each) => each.id === id)?.inputs?.[row] ?? ''),
  );
  const other = sparse[`${sheet.id}.${column.id}`];
  if (other !== undefined) {
    const [file, id] = other;
    const records = rowsOf(files.get(file) ?? '');
    const found = records.find((each) => sheet.key.every((key, at) => each[key] === keys[at]));
    if (found === undefined)
      records.push({
        ...Object.fromEntries(sheet.key.map((key, at) => [key, keys[at] ?? ''])),
        [id]: written(value),
      });
    else found[id] = written(value);
    files.set(file, csv(records, comma));
    return files;
  }
  const file = place?.file ?? '';
  const at = (place?.row ?? 2) - 2;
  if (file.startsWith('templates/')) {
    const own = file.replace('templates/', '');
    const record = rowsOf(shipped.tables.get(own) ?? '')[at];
    // Shipped tables write a decimal point.
    const point = Object.fromEntries(
      Object.entries(record ?? {}).map(([id, cell]) => [id, comma ? decimal(cell) : cell]),
    );
    files.set(own, csv([...rowsOf(files.get(own) ?? ''), { ...point, [column.id]: written(value) }], comma));
    return files;
  }
  const records = rowsOf(files.get(file) ?? '');
  const record = records[at];
  if (record === undefined) throw new Error(`${file} has no row ${at + 2}`);
  record[column.id] = written(value);
  files.set(file, csv(records, comma));
  return files;
}

const decimal = (cell: string): string => (/^-?\d+\.\d+$/.test(cell) ? cell.replace('.', ',') : cell);

function rowsOf(text: string): Record<string, string>[] {
  return Papa.parse<Record<string, string>>(text.trim(), { header: true }).data.filter(
    (each) => Object.keys(each).length > 0,
  );
}

function csv(records: readonly Record<string, string>[], comma: boolean): string {
  const fields = [...new Set(records.flatMap((each) => Object.keys(each)))];
  return Papa.unparse(
    { fields, data: records.map((each) => fields.map((id) => each[id] ?? '')) },
    { delimiter: comma ? ';' : ',' },
  );
}
