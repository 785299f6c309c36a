import { type Problem, problem } from '../book/problems/problem.ts';
import { type Expression, referencesIn } from './expression.ts';
import type { Plan } from './plan.ts';
import { isLocked, PlanIndex } from './planIndex.ts';

/**
 * Look-ups by several names in which one of the names may change. A workbook looks rows up by one name;
 * where there are two, the row must be known for good when the workbook is written.
 */
export function changeableKeys(plan: Plan): Problem[] {
  const index = new PlanIndex(plan);

  function fixed(expression: Expression): boolean {
    if (expression.kind === 'text' || expression.kind === 'number') return true;
    if (expression.kind !== 'reference' || expression.to.rows === 'all' || expression.to.rows === 'children')
      return false;
    const { sheet, column: id, keys } = expression.to;
    const column = index.column(sheet, id);
    if (keys?.some((key) => !fixed(key))) return false;
    return isLocked(column) || (column.formula !== undefined && fixed(column.formula));
  }

  const problems: Problem[] = [];
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns) {
      for (const formula of column.formula === undefined ? (column.rowFormulas ?? []) : [column.formula]) {
        for (const { sheet: target, column: wanted, keys = [] } of referencesIn(formula)) {
          if (keys.length < 2 || keys.every(fixed)) continue;
          const names = index.sheet(target).sheet.key.join(', ');
          problems.push(
            problem(
              'needs-key',
              { ...column.at, column: column.heading },
              `A row of ${target} is looked up by ${keys.length} names here, and one of them may change.`,
              {
                accepted: `${target}[${names}].${wanted} with columns that name rows, or words in quotation marks`,
                mend: 'Use a column that names rows (kind: key), or a word such as "stall".',
              },
            ),
          );
        }
      }
    }
  }
  return problems;
}
