import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import type { Values } from './calc/values.ts';
import { type OpenedBook, openBook, type Priced, priceOpened, type Source } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { applyChanges } from './whatif/applyChanges.ts';
import { heldPrices, keptPrices, rowsAsked, withAskingPrices } from './whatif/prices.ts';
import { readScenarios } from './whatif/scenarios.ts';
import type {
  ChangeReport,
  DatedChange,
  MonthState,
  PriceState,
  WhatIfPrice,
  WhatIfReport,
  WhatIfScenario,
} from './whatif/whatIf.ts';
import { type Asked, commandLine, questionOf, type WhatIfQuestion } from './whatif/words/question.ts';

/** What the report is of, and today's calculation; without a report where problems stand in the way. */
export interface WhatIf {
  readonly problems: readonly Problem[];
  readonly priced: Priced;
  readonly report?: WhatIfReport;
}

/**
 * Prices a book as it stands and with its inputs changed: the same path with other figures, three times a scenario:
 * changed with today's asking prices held, and changed with asking prices that keep the margins.
 */
export function whatIfBook(source: Source, question: WhatIfQuestion): WhatIf {
  const opened = openBook(source);
  const priced = priceOpened(opened);
  const { plan, values } = priced;
  if (plan === undefined || values === undefined || hasErrors(priced.problems))
    return { problems: priced.problems, priced };
  const askable = withAskingPrices(plan, values);
  const { scenarios, problems: bad } = readScenarios(askable);
  const { asked, problems: faulty } = questionOf(question, scenarios, askable);
  const problems = [...priced.problems, ...bad, ...faulty];
  if (hasErrors(problems)) return { problems, priced };
  const reports: WhatIfScenario[] = [];
  for (const each of asked) {
    const ran = runScenario(opened, priced, each);
    if ('faults' in ran) problems.push(...ran.faults);
    else reports.push(ran.report);
  }
  if (hasErrors(problems)) return { problems, priced };
  const text = (sheet: string, column: string, row: number): string =>
    String(values.get(sheet, column, row) ?? '');
  const rows = (sheet: string): number[] =>
    Array.from({ length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 }, (_, row) => row);
  return {
    problems,
    priced,
    report: {
      workshop: plan.settings.workshop,
      currency: plan.settings.currency,
      channels: rows('channels').map((row) => text('channels', 'channel', row)),
      products: rows('products').map((row) => ({
        product: text('products', 'product', row),
        family: text('products', 'family', row),
      })),
      scenarios: reports,
    },
  };
}

function runScenario(
  opened: OpenedBook,
  base: Priced,
  { name, changes: dated, later }: Asked,
): { readonly report: WhatIfScenario } | { readonly faults: Problem[] } {
  const changes = dated.map(({ change }) => change);
  const today = stateOf(base);
  const withAsked = (plan: Plan): Plan => withAskingPrices(plan, today.values, rowsAsked(changes));
  const faults = applyChanges(withAsked(today.plan), changes).faults.map(({ message, accepted, mend }) =>
    problem('change-unclear', commandLine, `Scenario “${name}”: ${message}`, { accepted, mend }),
  );
  if (faults.length > 0) return { faults };
  const changed = (alter: (plan: Plan) => Plan): Priced =>
    priceOpened(opened, (plan) => alter(applyChanges(withAsked(plan), changes).plan));
  const heldPriced = changed((plan) => heldPrices(plan, today.values));
  const errors = heldPriced.problems.filter(({ severity }) => severity === 'error');
  if (heldPriced.plan === undefined) return { faults: errors };
  const held = stateOf(heldPriced);
  const keptPriced = changed((plan) => keptPrices(plan, today.values, held.values));
  if (keptPriced.plan === undefined) return { faults: [...keptPriced.problems] };
  const kept = stateOf(keptPriced);
  const prices = Array.from(
    { length: today.priceRows },
    (_, row): WhatIfPrice => ({
      product: String(today.values.get('prices', 'product', row)),
      channel: String(today.values.get('prices', 'channel', row)),
      setByHand: typeof today.values.get('prices', 'asking_set', row) === 'number',
      today: today.price(row),
      held: held.price(row),
      kept: kept.values.get('prices', 'room_check', row) === 'look' ? null : kept.price(row),
    }),
  );
  const seen = new Set(base.problems.map(problemId));
  const months = [today, held, kept].map((each) => each.month);
  const [first, second, third] = months;
  return {
    report: {
      name,
      changes: dated.map(told),
      later: later.map(told),
      prices,
      month: first && second && third ? { today: first, held: second, kept: third } : null,
      problems: keptPriced.problems.filter((each) => !seen.has(problemId(each))),
    },
  };
}

function told({ change, from }: DatedChange): ChangeReport {
  const { text, reads, effect, otherwise, cells } = change;
  return {
    text,
    reads,
    effect,
    otherwise,
    from,
    cells: cells.reduce((sum, { rows }) => sum + rows.length, 0),
  };
}

function problemId({ code, where, message }: Problem): string {
  return [code, where.file, where.row, where.line, where.column, message.replace(/[\d.,]+/g, '#')].join('|');
}

interface State {
  readonly plan: Plan;
  readonly values: Values;
  readonly priceRows: number;
  readonly price: (row: number) => PriceState;
  readonly month: MonthState | undefined;
}

function stateOf({ plan, values }: Priced): State {
  if (plan === undefined || values === undefined) throw new Error('A calculated book was expected');
  const number = (column: string, row: number): number => values.number('prices', column, row);
  const month = plan.sheets.some(({ id }) => id === 'month');
  return {
    plan,
    values,
    priceRows: plan.sheets.find(({ id }) => id === 'prices')?.rowCount ?? 0,
    price: (row) => ({
      unitCost: number('unit_cost', row),
      floor: number('floor', row),
      asking: number('asking', row),
      net: number('net', row),
      margin: number('margin', row),
      contribution: number('contribution', row),
      profit: number('profit', row),
      underFloor: values.get('prices', 'floor_check', row) === 'look',
    }),
    month: month
      ? {
          takings: values.number('month', 'takings', 0),
          contribution: values.number('month', 'contribution', 0),
          profit: values.number('month', 'profit', 0),
        }
      : undefined,
  };
}
