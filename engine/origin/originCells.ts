import * as v from 'valibot';
import { fingerprint } from '../book/files/fingerprint.ts';
import { numberKinds } from '../book/measures/kinds.ts';
import { type Origin, type OriginSheet, originFormat } from './origin.ts';
import { fromChunks, toChunks } from './originText.ts';

/** What the hidden sheet is called, and the word by which it is known under any name. */
export const originTitle = 'Origin';
const mark = 'sennit origin';

const sentence =
  'sennit takein reads this sheet to bring the changes of the workbook home into the book. Please leave it as it is.';

const text = v.string();
const columnShape = v.object({
  id: text,
  heading: text,
  role: v.picklist(['key', 'input', 'override', 'made', 'computed', 'check']),
  kind: v.picklist(numberKinds),
  file: v.exactOptional(text),
  column: v.exactOptional(text),
  shapes: v.exactOptional(v.array(text)),
});
const sheetShape = v.object({
  id: text,
  title: text,
  layout: v.picklist(['form', 'table']),
  key: v.array(text),
  repeats: v.boolean(),
  named: v.boolean(),
  table: v.exactOptional(text),
  columns: v.array(columnShape),
});
const headShape = v.object({
  version: text,
  date: text,
  settings: v.object({
    workshop: text,
    currency: text,
    currencyDigits: v.number(),
    decimal: v.picklist(['point', 'comma']),
    lengthUnit: v.picklist(['in', 'cm', 'mm']),
    cordUnit: v.picklist(['ft', 'yd', 'm']),
    weightUnit: v.picklist(['g', 'oz']),
  }),
  files: v.record(text, text),
});
const valuesShape = v.array(v.union([v.string(), v.number(), v.null()]));

/**
 * The rows of the hidden sheet, all of text: a sentence; the mark with the format and a fingerprint of what
 * follows; the head; then a row a sheet and a row a record, each with what it is, its name, and its matter.
 */
export function originCells({ sheets, ...head }: Origin): string[][] {
  const rows = [
    ['book', '', ...toChunks(head)],
    ...sheets.flatMap(({ rows: records, ...sheet }) => [
      ['sheet', sheet.id, ...toChunks(sheet)],
      ...records.map(({ name, values }) => ['row', name, ...toChunks(values)]),
    ]),
  ];
  return [[sentence], [mark, String(originFormat), printOf(rows)], ...rows];
}

function printOf(rows: readonly (readonly string[])[]): string {
  return fingerprint(rows.map((cells) => cells.join('\t')).join('\n'));
}

/** Whether these are the rows of a hidden sheet. */
export function isOrigin(rows: readonly (readonly string[])[]): boolean {
  return rows[1]?.[0] === mark;
}

/** What is wrong with a hidden sheet: written by a later version, or changed since it was written. */
export type OriginFault = 'later' | 'damaged';

/** Reads the rows of the hidden sheet again. */
export function readOrigin(given: readonly (readonly string[])[]): Origin | OriginFault {
  const format = Number(given[1]?.[1]);
  if (format > originFormat) return 'later';
  const rows = given.slice(2);
  if (format !== originFormat || printOf(rows) !== given[1]?.[2]) return 'damaged';
  const [first, ...rest] = rows;
  const head = v.safeParse(headShape, fromChunks(first?.slice(2) ?? []));
  if (!head.success) return 'damaged';
  const sheets: (OriginSheet & { rows: OriginSheet['rows'][number][] })[] = [];
  for (const [what, name = '', ...chunks] of rest) {
    const matter = fromChunks(chunks);
    const values = v.safeParse(valuesShape, matter);
    const sheet = v.safeParse(sheetShape, matter);
    const last = sheets.at(-1);
    if (what === 'sheet' && sheet.success) sheets.push({ ...sheet.output, rows: [] });
    else if (what === 'row' && values.success && last !== undefined)
      last.rows.push({ name, values: values.output });
    else return 'damaged';
  }
  return { ...head.output, sheets };
}
