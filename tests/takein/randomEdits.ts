import type { CellValue, Plan, PlanColumn, PlanSheet } from '../../engine/sheets/plan.ts';

/** An input cell, and what somebody writes into it. */
export interface RandomEdit {
  readonly sheet: PlanSheet;
  readonly column: PlanColumn;
  readonly row: number;
  readonly value: number | string;
}

/** Draws between 0 and 1 that are the same each time (mulberry32). */
export function draws(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const words = [
  'plain',
  'late order',
  'a, b; c',
  '"quoted"',
  'two\nlines',
  'été',
  '=1+1',
  '007',
  '½ in',
  'x < y & z',
];

/** A value that a maker may well write in the place of another; undefined where that takes more thought. */
function other(
  column: PlanColumn,
  plan: Plan,
  before: CellValue,
  draw: () => number,
): number | string | undefined {
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(draw() * from.length)];
  // Other texts are read for what they say; a family may be named by a price break.
  const free = ['name', 'remark', 'supplier', 'colour', 'size_is', 'source', 'use'];
  if (column.kind === 'text')
    return !free.includes(column.id) ? undefined : `${pick(words)} ${Math.floor(draw() * 1000)}`;
  if (column.of === 'materials' && typeof before === 'string') {
    const materials = plan.sheets.find(({ id }) => id === 'materials');
    const cells = (id: string): readonly CellValue[] =>
      materials?.columns.find((each) => each.id === id)?.inputs ?? [];
    const names = cells('material');
    const like = (row: number): string => `${cells('diameter')[row]} ${cells('sold_by')[row]}`;
    const own = names.indexOf(before);
    return pick(names.filter((_, row) => row !== own && like(row) === like(own)))?.toString();
  }
  // An ending hangs on the step of its prices.
  if (typeof before !== 'number' || column.id.startsWith('price_')) return undefined;
  switch (column.kind) {
    case 'money':
    case 'money_per_unit':
      return Math.round((before * (1 + draw() / 10) + 0.01) * 100) / 100;
    case 'percent':
      return Math.round((before + draw() / 100) * 1e5) / 1e5;
    case 'minutes':
    case 'hours':
      return before + Math.ceil(draw() * 8) / 8;
    case 'weight_per_unit':
      return Math.round(before * (1 + draw() / 10) * 1e4) / 1e4;
    case 'quantity':
      return Number.isInteger(before) && before > 1 ? before + Math.ceil(draw() * 5) : undefined;
    default:
      return undefined;
  }
}

/**
 * So many edits of different cells of a plan, the same for the same seed. Rows of a size run are left out: they are
 * one row in the book.
 */
export function randomEdits(plan: Plan, count: number, seed: number): RandomEdit[] {
  const draw = draws(seed);
  const cells = plan.sheets.flatMap((sheet) =>
    sheet.columns.flatMap((column) =>
      column.kept === undefined || !['input', 'override'].includes(column.role)
        ? []
        : Array.from({ length: sheet.rowCount }, (_, row) => ({ sheet, column, row })),
    ),
  );
  const alone = cells.filter(({ sheet, row }) => {
    const { file, row: line } = sheet.places[row] ?? { file: '' };
    const same = sheet.places.filter((each) => each.file === file && each.row === line);
    return sheet.layout === 'form' || (sheet.id !== 'prices' && same.length === 1);
  });
  const edits: RandomEdit[] = [];
  while (edits.length < count && alone.length > 0) {
    const [cell] = alone.splice(Math.floor(draw() * alone.length), 1);
    if (cell === undefined) break;
    const before = cell.column.inputs?.[cell.row] ?? null;
    // Blank cells are many: a few of them are filled.
    if (before === null && draw() > 0.1) continue;
    const value = other(cell.column, plan, before, draw);
    if (value !== undefined && value !== before) edits.push({ ...cell, value });
  }
  return edits;
}
