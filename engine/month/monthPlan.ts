import type { Book } from '../book/book.ts';
import { hasErrors, type Problem } from '../book/problems/problem.ts';
import { calculate } from '../calc/compiled/calculate.ts';
import { findings } from '../calc/findings.ts';
import type { Values } from '../calc/values.ts';
import { compile } from '../sheets/compile.ts';
import type { SheetDefinition } from '../sheets/definition.ts';
import type { Plan } from '../sheets/plan.ts';
import type { MonthFacts } from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';
import { type MonthTables, monthTables } from './monthTables.ts';
import type { Accounts } from './postings.ts';

/** A month as a plan of its own, with its values. */
export interface MonthPlan {
  readonly plan: Plan;
  readonly values: Values;
  readonly problems: readonly Problem[];
}

/**
 * Compiles and calculates a month, in two passes of the one path: with every line that a journal can have, from which
 * is seen which of them have an amount, and again with those.
 */
export function monthPlan(
  facts: MonthFacts,
  month: MonthPeriod,
  accounts: Accounts,
  { settings }: Book,
  definitions: readonly SheetDefinition[],
): MonthPlan {
  const compiled = ({ tables }: MonthTables): { plan: Plan; values: Values } => {
    const book: Book = { settings, record: new Map(), tables };
    const { plan: silent, problems } = compile(definitions, book);
    // No sheet of a month is the maker's, so what is wrong with one is a fault of ours.
    if (hasErrors(problems)) throw new Error(`The month's sheets: ${problems[0]?.message}`);
    const plan = sayingWhatIsEmpty(silent, month);
    return { plan, values: calculate(plan) };
  };
  const digits = settings.currencyDigits;
  const all = monthTables(facts, month, accounts, digits);
  const { values: first } = compiled(all);
  const posted = new Set(all.journal.filter((_, row) => first.number('posted', 'amount', row) !== 0));
  const wanted = new Set(
    [...posted].map((line) => [line.entry, line.side, line.source, line.subject].join('|')),
  );
  const { plan, values } = compiled(
    monthTables(facts, month, accounts, digits, (line) =>
      wanted.has([line.entry, line.side, line.source, line.subject].join('|')),
    ),
  );
  return { plan, values, problems: findings(plan, values) };
}

/** A sheet without rows says so, so that nobody takes its headings for something that was forgotten. */
function sayingWhatIsEmpty(plan: Plan, month: MonthPeriod): Plan {
  const sheets = plan.sheets.map((sheet) =>
    sheet.rowCount > 0 ? sheet : { ...sheet, answers: `${sheet.answers} Nothing in ${month.name}.` },
  );
  return { ...plan, sheets };
}
