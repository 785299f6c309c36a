import { sameKey } from '../book/book.ts';
import { mendName } from '../book/problems/nearest.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import type { Plan } from '../sheets/plan.ts';
import type { Change } from './words/change.ts';
import { isFault } from './words/findInputs.ts';
import { parseChange } from './words/parseChange.ts';

/** Today's figures, which no scenario may be called. */
export const baseName = 'base';

/** One row of scenarios.csv: a change, or another scenario that is part of this one. */
export interface ScenarioRow {
  readonly scenario: string;
  readonly text: string;
  /** `2027-03` or `2027-03-15`; empty where it always holds. */
  readonly from: string;
  readonly change?: Change;
  readonly includes?: string;
  readonly where: Place;
}

/** The scenarios of a book. Changes work in the order of their rows, whichever scenarios they come from. */
export interface Scenarios {
  readonly names: readonly string[];
  readonly rows: readonly ScenarioRow[];
}

/** Reads the sheet Scenarios of a plan; reports every row that says nothing that can be done. */
export function readScenarios(plan: Plan): { readonly scenarios: Scenarios; readonly problems: Problem[] } {
  const problems: Problem[] = [];
  const sheet = plan.sheets.find(({ id }) => id === 'scenarios');
  const text = (column: string, row: number): string =>
    String(sheet?.columns.find(({ id }) => id === column)?.inputs?.[row] ?? '');
  const names: string[] = [];
  const known = (name: string): string | undefined => names.find((each) => sameKey(each) === sameKey(name));
  for (let row = 0; row < (sheet?.rowCount ?? 0); row += 1) {
    const name = text('scenario', row);
    if (name !== '' && known(name) === undefined) names.push(name);
  }
  const rows = Array.from({ length: sheet?.rowCount ?? 0 }, (_, row): ScenarioRow => {
    const where = { ...(sheet?.places[row] ?? { file: 'scenarios.csv' }), column: 'change' };
    const scenario = known(text('scenario', row)) ?? '';
    const change = text('change', row);
    const from = text('from', row);
    const complain = (
      column: string,
      message: string,
      accepted: string,
      mend: string,
      found: string,
    ): void => {
      problems.push(problem('change-unclear', { ...where, column }, message, { found, accepted, mend }));
    };
    if (sameKey(scenario) === baseName || scenario.includes(' + '))
      complain(
        'scenario',
        sameKey(scenario) === baseName
          ? '“base” stands for today’s figures, so no scenario can be called so.'
          : 'A name with “ + ” in it reads as two scenarios, one upon the other.',
        'another name',
        'Rename the scenario.',
        scenario,
      );
    if (from !== '' && !isMonthOrDay(from))
      complain(
        'from',
        `“${from}” is no month or day.`,
        '2027-03 or 2027-03-15',
        'Write year, month and day with hyphens.',
        from,
      );
    const base = { scenario, text: change, from, where };
    const stacked = /^scenario\s+(.+)$/i.exec(change)?.[1]?.trim();
    if (stacked !== undefined) {
      const other = known(stacked);
      if (other !== undefined) return { ...base, includes: other };
      complain(
        'change',
        `There is no scenario “${stacked}”.`,
        names.join(', '),
        mendName(stacked, names),
        change,
      );
      return base;
    }
    if (change === '') return base;
    const read = parseChange(change, plan);
    if (!isFault(read)) return { ...base, change: read };
    complain('change', read.message, read.accepted, read.mend, change);
    return base;
  });
  const scenarios = { names, rows };
  for (const name of names) {
    if (partsOf(scenarios, name).has(name)) {
      const where = rows.find((row) => row.scenario === name && row.includes !== undefined)?.where;
      problems.push(
        problem(
          'change-unclear',
          where ?? { file: 'scenarios.csv' },
          `The scenario “${name}” is part of itself.`,
          {
            accepted: 'scenarios that do not lead back to each other',
            mend: 'Remove one of the rows that say “scenario …”.',
          },
        ),
      );
    }
  }
  return { scenarios, problems };
}

/** Every scenario that is part of one, through however many others. */
function partsOf({ rows }: Scenarios, name: string): ReadonlySet<string> {
  const parts = new Set<string>();
  const open = [name];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const { scenario, includes } of rows) {
      if (scenario !== at || includes === undefined || parts.has(includes)) continue;
      parts.add(includes);
      open.push(includes);
    }
  }
  return parts;
}

/** Names of the scenarios in which a row takes part: its own, and those that include it. */
export function scenariosOf(scenarios: Scenarios, row: ScenarioRow): string[] {
  return scenarios.names.filter(
    (name) => name === row.scenario || partsOf(scenarios, name).has(row.scenario),
  );
}

/** `2027-03` or `2027-03-15`. */
export function isMonthOrDay(text: string): boolean {
  return /^\d{4}-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?$/.test(text);
}

/** A change that begins on a day has begun on another; days and months as text, such as 2027-03. */
export function hasBegun(from: string, on: string): boolean {
  return on === '' || from === '' || from <= on;
}

/**
 * The rows that take part in scenarios laid one upon the other, in the order of their rows.
 *
 * @param on the day for which it is asked, empty for all that the scenarios hold
 */
export function rowsOf(scenarios: Scenarios, names: readonly string[], on = ''): ScenarioRow[] {
  const wanted = new Set(names.map(sameKey));
  return scenarios.rows.filter(
    (row) =>
      row.change !== undefined &&
      hasBegun(row.from, on) &&
      scenariosOf(scenarios, row).some((name) => wanted.has(sameKey(name))),
  );
}
