import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { type Reference, referencesIn } from '../sheets/expression.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';
import { PlanIndex } from '../sheets/planIndex.ts';
import { showValue } from '../sheets/showValue.ts';
import { isFailure, type Values } from './values.ts';

/** A check that failed says so for at most this many rows; the rest are counted. */
const mostRows = { error: 5, watch: 25 };

/** What a failed cell shows, in words. */
const failureWords: Readonly<Record<string, string>> = Object.freeze({
  '#DIV/0!': 'it divides by zero',
  '#NUM!': 'a number is outside what a function takes',
  '#VALUE!': 'there is text where a number is needed',
  '#N/A': 'a name is not found',
});

/**
 * What the calculation shows to be wrong: cells that cannot be calculated (the first of a chain, not the
 * forty after it) and checks that say "look".
 */
export function findings(plan: Plan, values: Values): Problem[] {
  const failedChecks = plan.sheets.flatMap((sheet) =>
    sheet.columns.flatMap((column) =>
      column.check === undefined ? [] : checkFindings(sheet, column, plan, values),
    ),
  );
  // A check that failed on a row explains the cells of that row that cannot be worked out.
  const explained = new Set(
    failedChecks.filter((each) => each.severity === 'error').map(({ where }) => rowId(where)),
  );
  const failures = failedCells(plan, values, explained);
  // A fault in the figures explains the totals that do not foot because of it.
  const specific = failedChecks.filter((each) => each.where.file !== 'templates/sheets/checks.yaml');
  return [
    ...failures,
    ...(specific.some((each) => each.severity === 'error') || failures.length > 0 ? specific : failedChecks),
  ];
}

function checkFindings(sheet: PlanSheet, column: PlanColumn, plan: Plan, values: Values): Problem[] {
  const { check } = column;
  if (check === undefined) return [];
  const found: Problem[] = [];
  // One row of the maker's may stand for several here, one a size: it is told once, with their names.
  const told = new Map<string, { at: number; others: string[] }>();
  const errors = sheet.columns.filter((each) => each.check?.severity === 'error');
  let more = 0;
  for (let row = 0; row < sheet.rowCount; row += 1) {
    if (values.get(sheet.id, column.id, row) !== 'look') continue;
    // What is merely to be looked at says nothing of a row that has an error.
    if (check.severity === 'watch' && errors.some((each) => values.get(sheet.id, each.id, row) === 'look'))
      continue;
    const place = sheet.places[row] ?? { file: sheet.title };
    const [name, ...rest] = sheet.key.map((id) => String(values.get(sheet.id, id, row)));
    const group = [place.file, place.row ?? `at ${row}`, ...rest].join('|');
    const before = told.get(group);
    if (before !== undefined) {
      before.others.push(name!);
      continue;
    }
    if (found.length === mostRows[check.severity]) {
      more += 1;
      continue;
    }
    const message = checkMessage(sheet, check, row, plan, values);
    told.set(group, { at: found.length, others: [] });
    found.push(
      problem('check-failed', place, message, {
        severity: check.severity,
        accepted: check.mend === '' ? column.heading.toLowerCase() : '',
        mend: check.mend,
      }),
    );
  }
  for (const { at, others } of told.values()) {
    const first = found[at];
    if (first === undefined || others.length === 0) continue;
    found[at] = { ...first, message: `${first.message} Also: ${others.join(', ')}.` };
  }
  if (more > 0) {
    found.push(
      problem(
        'check-failed',
        { file: sheet.places[0]?.file ?? sheet.title },
        `${more === 1 ? 'One more row fails' : `${more} more rows fail`} the same check on the sheet ${sheet.title} (${column.heading.toLowerCase()}).`,
        { severity: check.severity, mend: check.mend },
      ),
    );
  }
  return found;
}

/** What a check says of one row that fails it. */
export function checkMessage(
  sheet: PlanSheet,
  { says }: NonNullable<PlanColumn['check']>,
  row: number,
  plan: Plan,
  values: Values,
): string {
  return says.replace(/\{(\w+)\}/g, (whole, id: string) => {
    const named = sheet.columns.find((each) => each.id === id);
    if (named === undefined) return whole;
    const value = values.get(sheet.id, id, row);
    return isFailure(value) ? value.error : showValue(value, named.kind, plan.settings) || 'none';
  });
}

function rowId({ file, row }: Place): string {
  return `${file}|${row}`;
}

/**
 * Failing cells none of whose own sources fail: the origins. One problem a column, with its first row.
 *
 * @param explained rows of the book that a failed check has named already
 */
function failedCells(plan: Plan, values: Values, explained: ReadonlySet<string>): Problem[] {
  const failing = new Map<string, { sheet: PlanSheet; column: PlanColumn; rows: number[] }>();
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns) {
      if (column.inputs !== undefined) continue;
      const rows: number[] = [];
      for (let row = 0; row < sheet.rowCount; row += 1) {
        if (isFailure(values.get(sheet.id, column.id, row))) rows.push(row);
      }
      if (rows.length > 0) failing.set(`${sheet.id}.${column.id}`, { sheet, column, rows });
    }
  }
  if (failing.size === 0) return [];
  const origins = [...failing.values()].filter(
    ({ column }) => !sources(column).some((to) => failing.has(`${to.sheet}.${to.column}`)),
  );
  const index = new PlanIndex(plan);
  return origins.flatMap(({ sheet, column, rows }) => {
    const open = rows.filter((row) => !isExplained(sheet, column, row, index, explained));
    const [first] = open;
    return first === undefined ? [] : [failedCell(sheet, column, first, open.length - 1, values)];
  });
}

function sources(column: PlanColumn): Reference[] {
  const formulas = column.formula === undefined ? (column.rowFormulas ?? []) : [column.formula];
  return formulas.flatMap((formula) => [...referencesIn(formula)]);
}

/** True where a check has named this row, or a row that the cell looks up by itself or through other cells. */
function isExplained(
  sheet: PlanSheet,
  column: PlanColumn,
  row: number,
  index: PlanIndex,
  explained: ReadonlySet<string>,
): boolean {
  const seen = new Set<string>();
  const reaches = (of: PlanSheet, cell: PlanColumn, at: number): boolean => {
    const id = `${of.id}.${cell.id}.${at}`;
    if (seen.has(id)) return false;
    seen.add(id);
    const place = of.places[at];
    if (place !== undefined && explained.has(rowId(place))) return true;
    return sources(cell).some((to) => {
      if (to.rows !== 'same' && to.rows !== 'keyed') return false;
      const target = index.sheet(to.sheet);
      const keys = to.keys?.map((key) => index.known(key, of, at)?.value ?? null);
      const found = keys === undefined ? at : target.row(keys);
      return found !== undefined && reaches(target.sheet, index.column(to.sheet, to.column), found);
    });
  };
  return reaches(sheet, column, row);
}

function failedCell(
  sheet: PlanSheet,
  column: PlanColumn,
  row: number,
  others: number,
  values: Values,
): Problem {
  const value = values.get(sheet.id, column.id, row);
  const shown = isFailure(value) ? value.error : '';
  const key = sheet.key.map((id) => values.get(sheet.id, id, row)).join(', ');
  // A formula of the book's own may be at fault itself; a shipped one fails because of the row it is given.
  const own = column.at.file.startsWith('sheets/');
  const place = sheet.places[row];
  const more =
    others === 0 ? '' : ` ${others} more ${others === 1 ? 'row has' : 'rows have'} the same fault.`;
  return problem(
    'calculation-failed',
    own || place === undefined ? { ...column.at, column: column.heading } : place,
    `“${column.heading}”${key === '' ? '' : ` of ${key}`} cannot be calculated on the sheet ${sheet.title}: ${failureWords[shown] ?? 'it is no number'}.${more}`,
    {
      found: shown,
      accepted: 'figures that the formula can work with',
      mend: own
        ? 'Check the formula, and the figures that it uses in that row.'
        : 'Check the figures of that row: a zero to divide by, too few strands, a number outside its bounds.',
    },
  );
}
