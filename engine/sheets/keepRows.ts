import type { SheetDefinition } from './definition.ts';
import type { Plan, PlanSheet } from './plan.ts';
import { PlanIndex } from './planIndex.ts';

/**
 * Drops the rows of crossed sheets whose `keep` column is known to be blank: a product has cuts only for
 * the roles that have a cord, and a quantity price only where the price break reaches it.
 */
export function keepRows(plan: Plan, definitions: readonly SheetDefinition[]): Plan {
  const index = new PlanIndex(plan);
  const keepOf = new Map(
    definitions.map(({ sheet, rows }) => [sheet, 'keep' in rows ? rows.keep : undefined]),
  );
  const sheets = plan.sheets.map((sheet): PlanSheet => {
    const keep = keepOf.get(sheet.id);
    const formula = keep === undefined ? undefined : index.column(sheet.id, keep).formula;
    if (formula === undefined) return sheet;
    const kept: number[] = [];
    for (let row = 0; row < sheet.rowCount; row += 1) {
      const known = index.known(index.folded(formula, sheet, row), sheet, row);
      if (known === undefined || (known.value !== null && known.value !== '')) kept.push(row);
    }
    const { inner: _, ...rest } = sheet;
    const pick = <T>(values: readonly T[]): T[] => kept.map((row) => values[row] as T);
    return {
      // A crossing with gaps is no complete one any more.
      ...(kept.length === sheet.rowCount ? sheet : rest),
      rowCount: kept.length,
      places: pick(sheet.places),
      columns: sheet.columns.map((column) => ({
        ...column,
        ...(column.inputs === undefined ? {} : { inputs: pick(column.inputs) }),
        ...(column.rowFormulas === undefined ? {} : { rowFormulas: pick(column.rowFormulas) }),
      })),
    };
  });
  return { ...plan, sheets };
}
