import { type Problem, problem } from '../book/problem.ts';
import { referencesIn } from '../sheets/expression.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';
import { showValue } from '../sheets/showValue.ts';
import { isFailure, type Values } from './values.ts';

/** A check that failed says so for at most this many rows; the rest are counted. */
const mostRows = 25;

/**
 * What the calculation shows to be wrong: cells that cannot be calculated (the first of a chain, not the
 * forty after it) and checks that say "look".
 */
export function findings(plan: Plan, values: Values): Problem[] {
  const failures = failedCells(plan, values);
  const failedChecks = plan.sheets.flatMap((sheet) =>
    sheet.columns.flatMap((column) =>
      column.check === undefined ? [] : checkFindings(sheet, column, plan, values),
    ),
  );
  // A fault in the figures explains the totals that do not foot because of it.
  const specific = failedChecks.filter((each) => each.where.file !== 'templates/sheets/checks.yaml');
  return [
    ...failures,
    ...(specific.some((each) => each.severity === 'error') || failures.length > 0 ? specific : failedChecks),
  ];
}

function checkFindings(sheet: PlanSheet, column: PlanColumn, plan: Plan, values: Values): Problem[] {
  const found: Problem[] = [];
  const { check } = column;
  if (check === undefined) return found;
  let more = 0;
  for (let row = 0; row < sheet.rowCount; row += 1) {
    if (values.get(sheet.id, column.id, row) !== 'look') continue;
    if (found.length === mostRows) {
      more += 1;
      continue;
    }
    const message = check.says.replace(/\{(\w+)\}/g, (whole, id: string) => {
      const named = sheet.columns.find((each) => each.id === id);
      if (named === undefined) return whole;
      const value = values.get(sheet.id, id, row);
      return isFailure(value) ? value.error : showValue(value, named.kind, plan.settings) || 'none';
    });
    const place = sheet.places[row] ?? { file: sheet.title };
    found.push(
      problem('check-failed', place, message, {
        severity: check.severity,
        accepted: column.heading.toLowerCase(),
        mend: check.mend,
      }),
    );
  }
  if (more > 0) {
    found.push(
      problem(
        'check-failed',
        { file: sheet.title },
        `${more} more rows fail the same check (${column.heading.toLowerCase()}).`,
        { severity: check.severity, mend: check.mend },
      ),
    );
  }
  return found;
}

/** Failing cells none of whose own sources fail: the origins. One problem a column, with its first row. */
function failedCells(plan: Plan, values: Values): Problem[] {
  const failing = new Map<
    string,
    { sheet: PlanSheet; column: PlanColumn; row: number; error: string; count: number }
  >();
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns) {
      if (column.inputs !== undefined) continue;
      for (let row = 0; row < sheet.rowCount; row += 1) {
        const value = values.get(sheet.id, column.id, row);
        if (!isFailure(value)) continue;
        const id = `${sheet.id}.${column.id}`;
        const known = failing.get(id);
        if (known === undefined) failing.set(id, { sheet, column, row, error: value.error, count: 1 });
        else known.count += 1;
      }
    }
  }
  const origins = [...failing.values()].filter(({ column }) => {
    const formulas = column.formula === undefined ? (column.rowFormulas ?? []) : [column.formula];
    return !formulas.some((formula) =>
      [...referencesIn(formula)].some((to) => failing.has(`${to.sheet}.${to.column}`)),
    );
  });
  return origins.map(({ sheet, column, row, error, count }) => {
    const key = sheet.key.map((id) => values.get(sheet.id, id, row)).join(', ');
    const others = count > 1 ? ` (and ${count - 1} more rows)` : '';
    return problem(
      'calculation-failed',
      { ...column.at, column: column.heading },
      `${sheet.title}, ${column.heading}${key === '' ? '' : `, ${key}`}: this cannot be calculated (${error})${others}.`,
      {
        found: error,
        accepted: 'a number',
        mend: 'Check the figures of that row: a zero to divide by, a weave without pitch or angle, a number outside its bounds.',
      },
    );
  });
}
