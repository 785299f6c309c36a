import type { CellValue, Plan, PlanSheet } from '../../sheets/plan.ts';
import { type Mover, moverOf, only, placeId, wordKinds } from '../mover.ts';
import type { InputCells } from './change.ts';
import { findInputs, isFault, isOpen } from './findInputs.ts';
import { inputName } from './inputName.ts';

/** Sheets whose figures are read by a fit or a cutting plan and by no formula of a price; and this list's own. */
const leftOut: ReadonlySet<string> = new Set(['samples', 'stock', 'scenarios', 'ranges']);

/**
 * The numeric inputs of a book, grouped as makers speak of them: the wage, all overheads, each material's price and all
 * cord together, minutes by weave and product, fees by channel, every other figure by its row. Numbers that are
 * counted (strands, layers, pieces of a part) are left out: nobody is unsure of them by a per cent.
 *
 * A cell may be in several groups (a cord, and all cord). Blank cells are in none.
 */
export function inputGroups(plan: Plan): Mover[] {
  const groups: Mover[] = [];
  const seen = new Set<string>();
  const add = (name: string, cells: readonly InputCells[]): void => {
    const all = moverOf(name, cells, plan);
    const kept = all.before.flatMap((each, at) => (each === null || each === 0 ? [] : [at]));
    if (kept.length === 0) return;
    const mover = only(all, kept);
    const id = mover.cells.map(placeId).sort().join(' ');
    if (seen.has(id)) return;
    seen.add(id);
    groups.push(mover);
  };
  /** By the words that a change would use, so that the name can be given back. */
  const named = (...names: readonly string[]): void => {
    for (const name of names) {
      const found = findInputs(name, plan);
      if (!isFault(found)) add(name, [...found.cells, ...found.along]);
    }
  };
  const keys = (id: string, column: string): string[] => {
    const sheet = plan.sheets.find((each) => each.id === id);
    const inputs = sheet?.columns.find((each) => each.id === column)?.inputs ?? [];
    return [...new Set(inputs.map(String))];
  };
  const covered = new Set<string>();
  named('wage', 'on-costs', 'bench hours', 'tax', 'overhead', 'cord', 'webbing', 'parts', 'waste', 'freight');
  named(...keys('exchange', 'currency'));
  named(...keys('materials', 'material').map((each) => `price of ${each}`));
  named('minutes', ...keys('work', 'for').map((each) => `minutes of ${each}`));
  named(...keys('channels', 'channel').flatMap((each) => [`fees of ${each}`, `postage of ${each}`]));
  named('asking prices');
  if (plan.sheets.some(({ id }) => id === 'sales_mix')) named('pieces a month');
  for (const { cells } of groups) for (const place of cells) covered.add(placeId(place));
  const pieces = new Set(soldByPiece(plan));
  for (const sheet of plan.sheets) {
    if (leftOut.has(sheet.id)) continue;
    for (const column of sheet.columns) {
      if (!isOpen(column) || wordKinds.has(column.kind) || column.kind === 'count') continue;
      for (let row = 0; row < sheet.rowCount; row += 1) {
        if (column.kind === 'quantity' && pieces.has(String(materialOf(sheet, row)))) continue;
        const cells = [{ sheet: sheet.id, column: column.id, rows: [row] }];
        const isCovered = covered.has(placeId({ sheet: sheet.id, column: column.id, row }));
        if (!isCovered || ['prices', 'sales_mix'].includes(sheet.id))
          add(inputName(sheet, column, row, plan), cells);
      }
    }
  }
  return groups;
}

function materialOf(sheet: PlanSheet, row: number): CellValue | undefined {
  return sheet.columns.find(({ id }) => id === 'material')?.inputs?.[row];
}

/** Materials of which a pack holds, and a piece takes, a whole number. */
function soldByPiece(plan: Plan): string[] {
  const sheet = plan.sheets.find(({ id }) => id === 'materials');
  const soldBy = sheet?.columns.find(({ id }) => id === 'sold_by')?.inputs ?? [];
  return soldBy.flatMap((word, row) => (sheet && word === 'piece' ? [String(materialOf(sheet, row))] : []));
}
