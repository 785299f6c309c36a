import type { BookValue, Table } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import { keptMargins } from './prices.ts';
import { baseName, rowsOf, type ScenarioRow, type Scenarios, scenariosOf } from './scenarios.ts';
import type { Change } from './words/change.ts';

/** A change with the number by which the sheet Changes knows it. */
export interface NumberedChange {
  readonly number: string;
  readonly change: Change;
  readonly row: ScenarioRow;
}

/** The changes of a book's scenarios, numbered in the order in which they work. */
export function numbered({ rows }: Scenarios): NumberedChange[] {
  return rows
    .flatMap((row) => (row.change === undefined ? [] : [{ row, change: row.change }]))
    .map((each, at) => ({ ...each, number: `change ${at + 1}` }));
}

/** The tables from which the sheets What-if, Before and after, Scenarios and Changes are made. */
export function switchTables(
  plan: Plan,
  values: Values,
  scenarios: Scenarios,
  changes: readonly NumberedChange[],
  picked: { readonly scenario: string; readonly on: string; readonly askingPrices: string },
): ReadonlyMap<string, Table> {
  const prices = Array.from(
    { length: plan.sheets.find(({ id }) => id === 'prices')?.rowCount ?? 0 },
    (_, row) => row,
  );
  const column = (id: string): BookValue[] =>
    prices.map((row) => {
      const value = values.get('prices', id, row);
      return typeof value === 'number' || typeof value === 'string' ? value : null;
    });
  return new Map([
    [
      'what_if',
      table('what_if', [
        { scenario: picked.scenario, on: picked.on || null, asking_prices: picked.askingPrices },
      ]),
    ],
    [
      'scenario_names',
      table('scenario_names', [
        { scenario: baseName, holds: "Today's figures", from: null },
        ...scenarios.names.map((name) => {
          const own = rowsOf(scenarios, [name]);
          const begins = [...new Set(own.map(({ from }) => from).filter((each) => each !== ''))];
          return {
            scenario: name,
            holds: own.map((row) => row.text).join('; '),
            from: begins.join(', ') || null,
          };
        }),
      ]),
    ],
    [
      'changes',
      table(
        'changes',
        changes.map(({ number, change, row }) => {
          const { alteration } = change;
          const value = alteration.how === 'value' ? alteration.value : null;
          return {
            number,
            change: change.text,
            reads: change.reads,
            part_of: scenariosOf(scenarios, row)
              .map((name) => `${name};`)
              .join(' '),
            from: row.from || null,
            percent: alteration.how === 'percent' ? alteration.by : null,
            amount: alteration.how === 'amount' ? alteration.by : null,
            value: typeof value === 'number' ? value : null,
            word: typeof value === 'string' ? value : null,
          };
        }),
      ),
    ],
    [
      'before_after',
      {
        name: 'before_after',
        rowCount: prices.length,
        places: prices.map(() => ({ file: 'the sheet Before and after' })),
        columns: new Map([
          ['product', column('product')],
          ['channel', column('channel')],
          ['cost_today', column('unit_cost')],
          ['asking_today', column('asking')],
          ['margin_today', column('margin')],
          ['contribution_today', column('contribution')],
          ['margin_kept', keptMargins(plan, values)],
        ]),
      },
    ],
  ]);
}

function table(name: string, rows: readonly Readonly<Record<string, BookValue>>[]): Table {
  const ids = Object.keys(rows[0] ?? {});
  return {
    name,
    rowCount: rows.length,
    columns: new Map(ids.map((id) => [id, rows.map((row) => row[id] ?? null)])),
    places: rows.map(() => ({ file: `the sheet ${name}` })),
  };
}
