import type { Problem, ProblemCode } from './book/problems/problem.ts';
import { checkMessage } from './calc/findings.ts';
import type { Values } from './calc/values.ts';
import type { Priced } from './priceBook.ts';
import type { Plan, PlanSheet } from './sheets/plan.ts';

/** Something that a changed book has to say and today's has not; rows that fail the same check are one. */
export interface NewFinding {
  readonly code: ProblemCode;
  readonly severity: Problem['severity'];
  /** What the first row says. */
  readonly message: string;
  readonly rows: number;
  readonly mend: string;
}

/** Compares row by row, since a list of problems names a few rows and counts the others. */
export function newFindings(
  then: Priced,
  today: { readonly plan: Plan; readonly values: Values; readonly problems: readonly Problem[] },
): NewFinding[] {
  return [
    ...(then.plan === undefined ? [] : newChecks(then.plan, then.values, today)),
    ...newFaults(then, today),
  ];
}

function newChecks(
  plan: Plan,
  values: Values | undefined,
  today: { readonly plan: Plan; readonly values: Values },
): NewFinding[] {
  if (values === undefined) return [];
  // Totals that do not foot say nothing that their parts have not said.
  return plan.sheets.flatMap((sheet) =>
    sheet.id === 'checks'
      ? []
      : sheet.columns.flatMap((column): NewFinding[] => {
          const { check } = column;
          if (check === undefined) return [];
          const known = new Set(
            failing(
              today.plan.sheets.find(({ id }) => id === sheet.id),
              column.id,
              today.values,
            ).map(({ name }) => name),
          );
          const fresh = failing(sheet, column.id, values).filter(({ name }) => !known.has(name));
          const [first] = fresh;
          if (first === undefined) return [];
          const message = checkMessage(sheet, check, first.row, plan, values);
          return [
            { code: 'check-failed', severity: check.severity, message, rows: fresh.length, mend: check.mend },
          ];
        }),
  );
}

function failing(
  sheet: PlanSheet | undefined,
  column: string,
  values: Values,
): { row: number; name: string }[] {
  if (sheet === undefined || !sheet.columns.some(({ id }) => id === column)) return [];
  return Array.from({ length: sheet.rowCount }, (_, row) => row)
    .filter((row) => values.get(sheet.id, column, row) === 'look')
    .map((row) => ({
      row,
      name:
        sheet.key.length === 0 ? `${row}` : sheet.key.map((id) => values.get(sheet.id, id, row)).join('|'),
    }));
}

function newFaults(then: Priced, today: { readonly problems: readonly Problem[] }): NewFinding[] {
  const id = ({ code, where }: Problem): string =>
    [code, where.file, where.row, where.line, where.column].join('|');
  const known = new Set(today.problems.map(id));
  return then.problems
    .filter((each) => each.code !== 'check-failed' && !known.has(id(each)))
    .map(({ code, severity, message, mend }) => ({ code, severity, message, rows: 1, mend }));
}
