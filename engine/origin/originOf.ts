import type { BookFiles } from '../book/book.ts';
import { fingerprint } from '../book/files/fingerprint.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';
import {
  isHeld,
  isOpen,
  type Origin,
  type OriginColumn,
  type OriginRow,
  type OriginSheet,
} from './origin.ts';
import { planShapes, type Shapes } from './planShapes.ts';

/** Where a workbook comes from. */
export interface WrittenFrom {
  readonly version: string;
  /** ISO date. */
  readonly date: string;
  /** The files of the book, for their fingerprints. */
  readonly files?: BookFiles;
  /** Files that stood in for the book's own, such as another `make.csv`: what they hold does not go home. */
  readonly foreign?: readonly string[];
}

/** What a workbook of this plan has to remember. */
export function originOf(plan: Plan, from: WrittenFrom): Origin {
  const { files = new Map<string, string>(), foreign = [] } = from;
  const shapes = planShapes(plan);
  return {
    version: from.version,
    date: from.date,
    settings: plan.settings,
    files: Object.fromEntries([...files].map(([file, text]) => [file, fingerprint(text)])),
    sheets: plan.sheets.map((sheet) => originSheet(sheet, foreign, shapes)),
  };
}

function originSheet(sheet: PlanSheet, foreign: readonly string[], shapes: Shapes): OriginSheet {
  const columns = sheet.columns.map((column) => {
    const own = shapes(sheet, column);
    return { ...originColumn(column, foreign), ...(own.length === 0 ? {} : { shapes: own }) };
  });
  const named = columns.some(isOpen);
  const table = named && sheet.layout === 'table' ? tableOf(sheet, columns) : undefined;
  return {
    id: sheet.id,
    title: sheet.title,
    layout: sheet.layout,
    key: sheet.key,
    repeats: sheet.repeats === true,
    named,
    ...(table === undefined ? {} : { table }),
    columns,
    rows: named && sheet.layout === 'table' ? recordRows(sheet, columns) : formRows(sheet, columns, named),
  };
}

function originColumn(
  { id, heading, role, kind, kept }: PlanColumn,
  foreign: readonly string[],
): OriginColumn {
  const own = kept === undefined || foreign.includes(kept.file) ? undefined : kept;
  return { id, heading, role, kind, ...(own === undefined ? {} : { file: own.file, column: own.column }) };
}

/** The table whose rows the sheet shows, where a maker could write all of a further one into it. */
function tableOf(sheet: PlanSheet, columns: readonly OriginColumn[]): string | undefined {
  const file = columns.find((column) => sheet.key.includes(column.id) && column.file !== undefined)?.file;
  // A key put together from others has no column of its own in the file.
  const named = file ?? columns.find((column) => column.role === 'key' && column.file !== undefined)?.file;
  return columns.some((column) => column.kind === 'formula') ? undefined : named;
}

function recordRows(sheet: PlanSheet, columns: readonly OriginColumn[]): OriginRow[] {
  const held = sheet.columns.filter((_, at) => isHeld(columns[at] as OriginColumn));
  return Array.from({ length: sheet.rowCount }, (_, row) => ({
    name: `${sheet.id}:${row + 1}`,
    values: held.map(({ inputs }) => inputs?.[row] ?? null),
  }));
}

/** A form has a row for each of its lines; only those that the book keeps have a value to remember. */
function formRows(sheet: PlanSheet, columns: readonly OriginColumn[], named: boolean): OriginRow[] {
  if (!named) return [];
  return sheet.columns.map((column, at) => ({
    name: `${sheet.id}:${column.id}`,
    values: isHeld(columns[at] as OriginColumn) ? [column.inputs?.[0] ?? null] : [],
  }));
}
