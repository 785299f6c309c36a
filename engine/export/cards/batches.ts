import { sameKey } from '../../book/book.ts';
import type { CellValue, Plan, PlanSheet } from '../../sheets/plan.ts';

/**
 * The plan with other batch sizes, to be calculated again: what a batch takes then comes out of the sheets, and
 * so do the minutes a piece, as minutes of a batch are shared out over other pieces.
 *
 * @param batches products, by any spelling of their key, and how many to make
 */
export function withBatches(
  plan: Plan,
  batches: readonly { readonly product: string; readonly quantity: number }[],
): Plan {
  const wanted = new Map(batches.map(({ product, quantity }) => [sameKey(product), quantity]));
  const changed = (sheet: PlanSheet): PlanSheet => {
    const keys = sheet.columns.find(({ id }) => id === 'product')?.inputs ?? [];
    return {
      ...sheet,
      columns: sheet.columns.map((column) =>
        column.id !== 'batch_size' || column.inputs === undefined
          ? column
          : {
              ...column,
              inputs: column.inputs.map(
                (size, row): CellValue => wanted.get(sameKey(String(keys[row]))) ?? size,
              ),
            },
      ),
    };
  };
  return { ...plan, sheets: plan.sheets.map((sheet) => (sheet.id === 'products' ? changed(sheet) : sheet)) };
}
