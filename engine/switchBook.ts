import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import { calculate } from './calc/compiled/calculate.ts';
import { findings } from './calc/findings.ts';
import { openBook, type Priced, priceOpened, type Source } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { withAskingPrices } from './whatif/prices.ts';
import { baseScenario, readingColumns, stayingPrices } from './whatif/readingColumns.ts';
import { redirect } from './whatif/redirect.ts';
import { readScenarios, rowsOf, type Scenarios } from './whatif/scenarios.ts';
import { numbered, switchTables } from './whatif/switchTables.ts';

/** What stands in the switch when the workbook is opened. */
export interface Picked {
  readonly scenario: string;
  readonly on: string;
  readonly askingPrices: string;
}

/**
 * The book with its scenarios to switch on: the sheets What-if, Before and after, Scenarios and Changes, and beside
 * every input that a scenario changes a column that reads it so. A book without scenarios is priced as it is.
 *
 * A scenario that gives a product a cord which it does not have today would need rows that the workbook does not
 * have; it is left out and named (`sennit whatif` takes it).
 */
export function switchBook(
  source: Source,
  picked: Picked = { scenario: baseScenario, on: '', askingPrices: stayingPrices },
): Priced {
  const opened = openBook(source);
  const base = priceOpened(opened);
  const { plan, values, book } = base;
  if (plan === undefined || values === undefined || book === undefined || hasErrors(base.problems))
    return base;
  const { scenarios: all, problems: bad } = readScenarios(withAskingPrices(plan, values));
  if (hasErrors(bad)) return { problems: [...base.problems, ...bad], book };
  const { scenarios, problems: left } = switchable(all, plan);
  if (scenarios.names.length === 0) return { ...base, problems: [...base.problems, ...left] };
  const changes = numbered(scenarios);
  const tables = switchTables(plan, values, scenarios, changes, picked);
  const withTables = { ...opened, book: { ...book, tables: new Map([...book.tables, ...tables]) } };
  const laid = priceOpened(withTables);
  if (laid.plan === undefined) return laid;
  const redirected = redirect(withoutTexts(laid.plan), readingColumns(laid.plan, changes));
  const switched = calculate(redirected);
  return {
    problems: [...opened.problems, ...left, ...findings(redirected, switched)],
    book,
    plan: redirected,
    values: switched,
  };
}

/** The scenarios as written are read already; the sheet Changes holds their figures. */
function withoutTexts(plan: Plan): Plan {
  return { ...plan, sheets: plan.sheets.filter(({ id }) => id !== 'scenarios') };
}

/** Leaves out changes that set a name where none stands, since rows of cuts hang on that. */
function switchable(
  all: Scenarios,
  plan: Plan,
): { readonly scenarios: Scenarios; readonly problems: Problem[] } {
  const problems: Problem[] = [];
  const structural = new Set(
    all.rows.filter(({ change }) =>
      change?.cells.some(({ sheet, column: id, rows }) => {
        const column = plan.sheets.find((each) => each.id === sheet)?.columns.find((each) => each.id === id);
        return (
          sheet === 'products' &&
          /^(stripe|band|upper_over|upper_under)_cord$/.test(id) &&
          rows.some((row) => (column?.inputs?.[row] ?? null) === null)
        );
      }),
    ),
  );
  const out = all.names.filter((name) => rowsOf(all, [name]).some((row) => structural.has(row)));
  for (const name of out) {
    const row = all.rows.find((each) => structural.has(each) && rowsOf(all, [name]).includes(each));
    problems.push(
      problem(
        'change-unclear',
        row?.where ?? { file: 'scenarios.csv' },
        `The scenario “${name}” gives a product a further cord, so it cannot be switched on in a workbook, which has no rows for it.`,
        {
          severity: 'watch',
          found: row?.text ?? '',
          accepted: 'changes of figures, and other words where one stands',
          mend: 'Nothing needs mending: sennit whatif takes it, the workbook leaves it out.',
        },
      ),
    );
  }
  return {
    scenarios: {
      names: all.names.filter((name) => !out.includes(name)),
      rows: all.rows.filter((row) => !structural.has(row)),
    },
    problems,
  };
}
