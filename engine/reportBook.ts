import { hasErrors, type Problem } from './book/problem.ts';
import type { Values } from './calc/values.ts';
import { priceReport } from './export/priceReport.ts';
import type { BookReport, MonthFigures } from './export/report/bookReport.ts';
import { type Calculated, type Live, livePrograms } from './export/report/live/livePrograms.ts';
import { openBook, priceOpened, type Source } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { followingPrices, heldPrices, whatIfBook } from './whatIfBook.ts';
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
  const { scenarios, problems: unclear } = readScenarios(plan);
  const problems = [...found, ...unclear];
  if (hasErrors(problems)) return { problems };
  // A scenario may ask for what cannot be; then its problem is told, and the page has the rest.
  const asked =
    scenarios.names.length === 0
      ? undefined
      : whatIfBook(source, { scenarios: [], changes: [], on: '' });
  const known = new Set(problems.map((each) => JSON.stringify(each)));
  const further = (asked?.problems ?? []).filter((each) => !known.has(JSON.stringify(each)));
  if (hasErrors(further)) return { problems: [...problems, ...further] };
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
      scenarios: asked?.report ?? null,
      live,
    },
  };
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
  const sheet = plan.sheets.find(({ id }) => id === 'month');
  if (sheet === undefined) return null;
  const has = (column: string): boolean => sheet.columns.some(({ id }) => id === column);
  return {
    takings: values.number('month', 'takings', 0),
    contribution: values.number('month', 'contribution', 0),
    overhead: has('overhead') ? values.number('month', 'overhead', 0) : null,
    profit: values.number('month', 'profit', 0),
  };
}
