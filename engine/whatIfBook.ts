import { sameKey } from './book/book.ts';
import { mendName } from './book/nearest.ts';
import { hasErrors, type Problem, problem } from './book/problem.ts';
import type { Values } from './calc/values.ts';
import { type OpenedBook, openBook, type Priced, priceOpened, type Source } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { applyChanges } from './whatif/applyChanges.ts';
import { isFault } from './whatif/findInputs.ts';
import { parseChange } from './whatif/parseChange.ts';
import { heldPrices, keptPrices } from './whatif/prices.ts';
import { hasBegun, readScenarios, rowsOf, type Scenarios } from './whatif/scenarios.ts';
import type {
  DatedChange,
  MonthState,
  PriceState,
  WhatIfPrice,
  WhatIfReport,
  WhatIfScenario,
} from './whatif/whatIf.ts';

export interface WhatIfQuestion {
  /** Scenarios of the book by name, side by side; `cord up + new wage` lays one upon the other. */
  readonly scenarios: readonly string[];
  /** Changes beyond those of the book, all together: upon each scenario, or one scenario of their own. */
  readonly changes: readonly string[];
  /** The month or day for which it is asked, such as 2027-03; all changes where empty. */
  readonly on: string;
}

/** What the report is of, and today's calculation; without a report where problems stand in the way. */
export interface WhatIf {
  readonly problems: readonly Problem[];
  readonly priced: Priced;
  readonly report?: WhatIfReport;
}

/** Where problems of the question itself are told to be. */
const commandLine = { file: 'command line' } as const;

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
  const { scenarios, problems: bad } = readScenarios(plan);
  const { asked, problems: faulty } = questionOf(question, scenarios, plan);
  const problems = [...priced.problems, ...bad, ...faulty];
  if (hasErrors(problems)) return { problems, priced };
  const reports: WhatIfScenario[] = [];
  for (const { name, changes } of asked) {
    const ran = runScenario(opened, priced, name, changes);
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

interface Asked {
  readonly name: string;
  readonly changes: readonly DatedChange[];
}

/** Every scenario that is asked for, with its changes; all of the book's where none is named. */
function questionOf(
  { scenarios: names, changes: texts, on }: WhatIfQuestion,
  scenarios: Scenarios,
  plan: Plan,
): { readonly asked: readonly Asked[]; readonly problems: Problem[] } {
  const problems: Problem[] = [];
  const own = texts.flatMap((text): DatedChange[] => {
    const dated = /^(.+?),?\s+from\s+(\d{4}-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|[12]\d|3[01]))?)$/i.exec(
      text.trim(),
    );
    const change = parseChange(dated?.[1] ?? text, plan);
    if (!isFault(change)) return [{ change, from: dated?.[2] ?? '' }];
    const { message, accepted, mend } = change;
    problems.push(problem('change-unclear', commandLine, message, { found: text, accepted, mend }));
    return [];
  });
  const chosen = names.length > 0 || texts.length > 0 ? names : scenarios.names;
  const asked = chosen.map((name): Asked => {
    const parts = name.split(' + ').map((part) => part.trim());
    for (const part of parts) {
      if (scenarios.names.some((each) => sameKey(each) === sameKey(part))) continue;
      problems.push(
        problem('change-unclear', commandLine, `There is no scenario “${part}” in this book.`, {
          found: name,
          accepted: scenarios.names.join(', ') || 'none: the book has no scenarios.csv',
          mend: mendName(part, scenarios.names),
        }),
      );
    }
    const rows = rowsOf(scenarios, parts, on);
    const listed = rows.flatMap(({ change, from }) => (change === undefined ? [] : [{ change, from }]));
    return { name: [name, ...texts].join(', '), changes: [...listed, ...own] };
  });
  if (asked.length === 0 && texts.length > 0) asked.push({ name: texts.join(', '), changes: own });
  if (asked.length === 0 && problems.length === 0)
    problems.push(
      problem(
        'change-unclear',
        commandLine,
        'There is nothing to change: the book has no scenarios, and no change is given.',
        {
          accepted: 'a change such as "cord +12 %", or a table scenarios.csv',
          mend: 'Give a change in quotation marks.',
        },
      ),
    );
  return {
    asked: asked.map((each) => ({ ...each, changes: each.changes.filter(({ from }) => hasBegun(from, on)) })),
    problems,
  };
}

function runScenario(
  opened: OpenedBook,
  base: Priced,
  name: string,
  dated: readonly DatedChange[],
): { readonly report: WhatIfScenario } | { readonly faults: Problem[] } {
  const changes = dated.map(({ change }) => change);
  const today = stateOf(base);
  const faults = applyChanges(today.plan, changes).faults.map(({ message, accepted, mend }) =>
    problem('change-unclear', commandLine, `Scenario “${name}”: ${message}`, { accepted, mend }),
  );
  if (faults.length > 0) return { faults };
  const changed = (alter: (plan: Plan) => Plan): Priced =>
    priceOpened(opened, (plan) => alter(applyChanges(plan, changes).plan));
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
      changes: dated.map(({ change, from }) => ({
        text: change.text,
        reads: change.reads,
        from,
        cells: change.cells.reduce((sum, { rows }) => sum + rows.length, 0),
      })),
      prices,
      month: first && second && third ? { today: first, held: second, kept: third } : null,
      problems: keptPriced.problems.filter((each) => !seen.has(problemId(each))),
    },
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
