import type { CellValue, Plan, PlanColumn } from '../sheets/plan.ts';
import { showValue } from '../sheets/showValue.ts';
import { altered, type ChangeFault, type PlainChange } from './words/change.ts';

/** A change that leads where no input may be. */
export interface OutOfRange extends ChangeFault {
  readonly change: PlainChange;
}

/**
 * The plan with its inputs changed, one change after the other in the order given; a later change works on
 * what an earlier one has left.
 *
 * @returns the changed plan, and what left the bounds of its column (such a plan is not to be calculated)
 */
export function applyChanges(
  plan: Plan,
  changes: readonly PlainChange[],
): { readonly plan: Plan; readonly faults: readonly OutOfRange[] } {
  const faults: OutOfRange[] = [];
  const inputs = new Map<string, CellValue[]>();
  const columns = new Map(
    plan.sheets.flatMap((sheet) => sheet.columns.map((column) => [`${sheet.id}.${column.id}`, column])),
  );
  for (const change of changes) {
    for (const { sheet, column: id, rows } of change.cells) {
      const name = `${sheet}.${id}`;
      const column = columns.get(name);
      if (column?.inputs === undefined) throw new Error(`${name} is no input`);
      const values = inputs.get(name) ?? [...column.inputs];
      inputs.set(name, values);
      let told = false;
      for (const row of rows) {
        values[row] = altered(values[row] ?? null, change.alteration);
        if (told || fits(values[row] ?? null, column)) continue;
        told = true;
        const shown = showValue(values[row] ?? null, column.kind, plan.settings);
        faults.push({
          change,
          message: `“${change.text}” would make ${column.heading} ${shown || 'nothing'}.`,
          accepted: boundsText(column),
          mend: 'Change it by less.',
        });
      }
    }
  }
  return { plan: withInputs(plan, inputs), faults };
}

/** The plan with whole input columns replaced, by `sheet.column`. */
export function withInputs(plan: Plan, inputs: ReadonlyMap<string, readonly CellValue[]>): Plan {
  return {
    ...plan,
    sheets: plan.sheets.map((sheet) => ({
      ...sheet,
      columns: sheet.columns.map((column) => {
        const given = inputs.get(`${sheet.id}.${column.id}`);
        return given === undefined ? column : { ...column, inputs: given };
      }),
    })),
  };
}

/** As the tables themselves are read: within bounds, and whole where only whole numbers are. */
export function fits(value: CellValue, { kind, bounds }: PlanColumn): boolean {
  if (typeof value !== 'number') return true;
  const shown = kind === 'percent' ? value * 100 : value;
  const { min, above, max, below } = bounds;
  if (kind === 'count' && !Number.isInteger(shown)) return false;
  return (
    Number.isFinite(shown) &&
    (min === undefined || shown >= min) &&
    (above === undefined || shown > above) &&
    (max === undefined || shown <= max) &&
    (below === undefined || shown < below)
  );
}

function boundsText({ kind, bounds }: PlanColumn): string {
  const unit = kind === 'percent' ? ' %' : '';
  const { min, above, max, below } = bounds;
  const parts = [
    ...(min === undefined ? [] : [`${min}${unit} or more`]),
    ...(above === undefined ? [] : [`more than ${above}${unit}`]),
    ...(max === undefined ? [] : [`${max}${unit} or less`]),
    ...(below === undefined ? [] : [`less than ${below}${unit}`]),
  ];
  return `${kind === 'count' ? 'a whole number' : 'a number'}${parts.length === 0 ? '' : `, ${parts.join(' and ')}`}`;
}
