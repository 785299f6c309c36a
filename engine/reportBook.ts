import { hasErrors, type Problem } from './book/problems/problem.ts';
import type { Values } from './calc/values.ts';
import { priceReport } from './export/answers/priceReport.ts';
import type { BookReport, BreakEven, MonthFigures } from './export/report/bookReport.ts';
import { type Calculated, type Live, livePrograms } from './export/report/live/livePrograms.ts';
import { openBook, priceOpened, type Source } from './priceBook.ts';
import { type SensitivityReport, sensitivityBook } from './sensitivityBook.ts';
import type { Plan } from './sheets/plan.ts';
import type { Swept } from './sweptBook.ts';
import { whatIfBook } from './whatIfBook.ts';
import { followingPrices, heldPrices, withAskingPrices } from './whatif/prices.ts';
import { readScenarios } from './whatif/scenarios.ts';

/**
 * Gathers what the page of a book shows: its prices, each of its scenarios, and programs that price it again.
 *
 * @returns every problem of the book; no report where one of them is an error
 */
export function reportBook(source: Source): {
  readonly problems: readonly Problem[];
  readonly report?: BookReport;
} {
  const opened = openBook(source);
  const { plan, values, problems: found } = priceOpened(opened);
  if (plan === undefined || values === undefined) return { problems: found };
  const { scenarios, problems: unclear } = readScenarios(withAskingPrices(plan, values));
  const problems = [...found, ...unclear];
  if (hasErrors(problems)) return { problems };
  // A scenario may ask for what cannot be; then its problem is told, and the page has the rest.
  const asked =
    scenarios.names.length === 0 ? undefined : whatIfBook(source, { scenarios: [], changes: [], on: '' });
  const ranked = sensitivityOf(source, plan, values);
  const known = new Set(problems.map((each) => JSON.stringify(each)));
  for (const each of [...(asked?.problems ?? []), ...(ranked?.problems ?? [])]) {
    if (known.has(JSON.stringify(each))) continue;
    known.add(JSON.stringify(each));
    problems.push(each);
  }
  if (hasErrors(problems)) return { problems };
  const changed = (alter: (plan: Plan) => Plan): Calculated => {
    const priced = priceOpened(opened, alter);
    if (priced.plan === undefined || priced.values === undefined)
      throw new Error('A book that calculates with its own prices calculates with others');
    return { plan: priced.plan, values: priced.values };
  };
  const live: Live | null = livePrograms(
    { plan, values },
    changed((each) => heldPrices(each, values)),
    changed((each) => followingPrices(each, values)),
  );
  return {
    problems,
    report: {
      settings: plan.settings,
      prices: priceReport(plan, values, problems),
      costs: costsOf(plan, values),
      month: monthOf(plan, values),
      breakEven: breakEvenOf(plan, values),
      sensitivity: ranked?.report ?? null,
      scenarios: asked?.report ?? null,
      live,
    },
  };
}

/** What moves the month's profit most; in a book without expected sales, the price that has the least margin. */
function sensitivityOf(source: Source, plan: Plan, values: Values): Swept<SensitivityReport> | undefined {
  const question = { prices: 'held', inputs: [] } as const;
  if (plan.sheets.some(({ id }) => id === 'month')) return sensitivityBook(source, question);
  const rowCount = plan.sheets.find(({ id }) => id === 'prices')?.rowCount ?? 0;
  const margin = (row: number): number => values.number('prices', 'margin', row);
  const least = Array.from({ length: rowCount }, (_, row) => row)
    .filter((row) => Number.isFinite(margin(row)))
    .reduce<number | undefined>(
      (best, row) => (best === undefined || margin(row) < margin(best) ? row : best),
      undefined,
    );
  if (least === undefined) return undefined;
  return sensitivityBook(source, { ...question, of: { sheet: 'prices', column: 'margin', row: least } });
}

function costsOf(plan: Plan, values: Values): BookReport['costs'] {
  const rowCount = plan.sheets.find(({ id }) => id === 'costs')?.rowCount ?? 0;
  return Array.from({ length: rowCount }, (_, row) => ({
    product: String(values.get('costs', 'product', row)),
    cords: values.number('costs', 'cords', row),
    parts: values.number('costs', 'parts', row),
  }));
}

function monthOf(plan: Plan, values: Values): MonthFigures | null {
  if (!plan.sheets.some(({ id }) => id === 'month')) return null;
  const number = (column: string): number => values.number('month', column, 0);
  const known = (column: string): number | null => knownNumber(values, 'month', column, 0);
  return {
    takings: number('takings'),
    contribution: number('contribution'),
    overhead: number('overhead'),
    profit: number('profit'),
    benchHours: number('bench_hours'),
    benchHoursThere: number('bench_hours_there'),
    breakEvenRatio: known('break_even_share'),
    breakEvenTakings: known('break_even_takings'),
    wantedTakings: known('wanted_takings'),
  };
}

function breakEvenOf(plan: Plan, values: Values): BookReport['breakEven'] {
  const sheet = plan.sheets.find(({ id }) => id === 'break_even');
  if (sheet === undefined || values.number('rates', 'overhead_per_month', 0) <= 0) return null;
  return Array.from(
    { length: sheet.rowCount },
    (_, row): BreakEven => ({
      product: String(values.get('break_even', 'product', row)),
      channel: String(values.get('break_even', 'channel', row)),
      contributionEach: values.number('break_even', 'contribution_each', row),
      piecesWhole: knownNumber(values, 'break_even', 'pieces_whole', row),
      benchHours: knownNumber(values, 'break_even', 'bench_hours', row),
      withinHours: values.get('break_even', 'within_hours', row) === 'yes',
    }),
  );
}

/** A number, or null where the cell says in words that there is none. */
function knownNumber(values: Values, sheet: string, column: string, row: number): number | null {
  const value = values.get(sheet, column, row);
  return typeof value === 'number' ? value : null;
}
