import type { Plan, PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import { findInputs, headingOf, isFault } from './findInputs.ts';
import { inputWords } from './inputWords.ts';

/**
 * What a maker calls one input cell: `finished length of fob short`, `asking price of fob short at stall`, `quantity of
 * key ring in float fob`, `spare at each working end`. The first name that means this cell and no other; the sheet
 * language where none does.
 */
export function inputName(sheet: PlanSheet, column: PlanColumn, row: number, plan: Plan): string {
  const key = sheet.key.map((id) =>
    String(sheet.columns.find((each) => each.id === id)?.inputs?.[row] ?? ''),
  );
  const where = sheet.layout === 'form' ? '' : ` of ${rowName(sheet, key)}`;
  const names = figuresOf(sheet, column).map((figure) => `${figure}${where}`);
  const found = names.find((name) => meansOnly(name, sheet, column, row, plan));
  if (found !== undefined) return found;
  return `${sheet.id}${sheet.layout === 'form' ? '' : `[${key.join(', ')}]`}.${column.id}`;
}

function figuresOf(sheet: PlanSheet, column: PlanColumn): string[] {
  const words = inputWords.filter((each) => each.sheet === sheet.id && each.columns[0] === column.id);
  const margin = column.id === 'wanted_margin_percent' ? ['wanted margin'] : [];
  return [...words.flatMap((each) => each.words.slice(0, 1)), ...margin, headingOf(column)];
}

/** A product stands at a channel, and whatever else has two keys is in it: a part, an end. */
function rowName(sheet: PlanSheet, key: readonly string[]): string {
  const [first = '', second, ...rest] = key;
  if (second === undefined || rest.length > 0) return key.join(', ');
  return sheet.key[1] === 'channel' ? `${first} at ${second}` : `${second} in ${first}`;
}

function meansOnly(name: string, sheet: PlanSheet, column: PlanColumn, row: number, plan: Plan): boolean {
  const found = findInputs(name, plan);
  if (isFault(found)) return false;
  const places = [...found.cells, ...found.along].flatMap((each) =>
    each.rows.map((at) => `${each.sheet}.${each.column}.${at}`),
  );
  return places.length === 1 && places[0] === `${sheet.id}.${column.id}.${row}`;
}
