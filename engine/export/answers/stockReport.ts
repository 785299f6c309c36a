import { dayText } from '../../book/measures/day.ts';
import { type Problem, placeText } from '../../book/problems/problem.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';
import type { StockLedger } from '../../stock/stockLedger.ts';

/** What an item had at first, what came and went, and what it has at the end; in counts or in money. */
export interface StockRoll {
  readonly opening: number;
  readonly bought: number;
  readonly made: number;
  readonly used: number;
  readonly sold: number;
  readonly waste: number;
  readonly given: number;
  readonly counted: number;
  readonly corrected: number;
  /** Waste, given, counted and corrected together. */
  readonly other: number;
  readonly closing: number;
}

export interface StockItemReport {
  readonly item: string;
  readonly kind: 'material' | 'product';
  readonly unit: string;
  readonly quantity: StockRoll;
  readonly value: StockRoll;
  /** Null where nothing is on hand. */
  readonly unitCost: number | null;
  readonly standardUnitCost: number;
}

export interface StockMoveReport {
  readonly date: string;
  readonly item: string;
  readonly what: string;
  readonly partner: string;
  readonly quantity: number;
  readonly value: number;
  readonly source: string;
}

/** What `stock --json` prints. Money in the book's currency; what comes in is positive, what goes out negative. */
export interface StockReport {
  readonly workshop: string;
  readonly currency: string;
  readonly from: string;
  readonly to: string;
  readonly method: string;
  readonly timing: string;
  readonly period: string;
  /** The totals of the sheet Stock in all, by their names there. Costs and losses are positive here. */
  readonly totals: Readonly<Record<string, number>>;
  readonly items: readonly StockItemReport[];
  readonly moves: readonly StockMoveReport[];
  readonly use: readonly {
    readonly material: string;
    readonly product: string | null;
    readonly periodFrom: string;
    readonly normal: number;
    readonly taken: number;
    readonly isMeasured: boolean;
    readonly beyond: number;
    readonly beyondRatio: number | null;
  }[];
  readonly counts: readonly {
    readonly date: string;
    readonly item: string;
    readonly counted: number;
    readonly expected: number;
    readonly difference: number;
    readonly value: number;
  }[];
  /** Days until the last of the span on which more had left than there was. */
  readonly shortages: readonly {
    readonly item: string;
    readonly date: string;
    readonly below: number;
    readonly source: string;
  }[];
  readonly problems: readonly Problem[];
}

/** Picks the figures of the sheets of stock. Computes nothing. */
export function stockReport(
  plan: Plan,
  values: Values,
  ledger: StockLedger,
  problems: readonly Problem[],
): StockReport {
  const rows = (sheet: string): number[] =>
    Array.from({ length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 }, (_, row) => row);
  const text = (sheet: string, column: string, row: number): string => {
    const value = values.get(sheet, column, row);
    return value === null || isFailure(value) ? '' : String(value);
  };
  const known = (sheet: string, column: string, row: number): number | null => {
    const value = values.get(sheet, column, row);
    return typeof value === 'number' ? value : null;
  };
  const date = (sheet: string, column: string, row: number): string =>
    dayText(values.number(sheet, column, row));
  const last = values.number('stock_totals', 'to', 0);
  return {
    workshop: plan.settings.workshop,
    currency: plan.settings.currency,
    from: date('stock_totals', 'from', 0),
    to: dayText(last),
    method: text('rates', 'stock_method', 0),
    timing: text('rates', 'stock_timing', 0),
    period: text('rates', 'stock_period', 0),
    totals: totals(plan, values),
    items: rows('stock_items').map((row) => ({
      item: text('stock_items', 'item', row),
      kind: text('stock_items', 'kind', row) as 'material' | 'product',
      unit: text('stock_items', 'unit', row),
      quantity: roll(values, 'quantity', row),
      value: roll(values, 'value', row),
      unitCost: known('stock_items', 'unit_cost', row),
      standardUnitCost: values.number('stock_items', 'standard_unit', row),
    })),
    moves: rows('stock_moves').map((row) => ({
      date: date('stock_moves', 'date', row),
      item: text('stock_moves', 'item', row),
      what: text('stock_moves', 'what', row),
      partner: text('stock_moves', 'partner', row),
      quantity: values.number('stock_moves', 'quantity', row),
      value: values.number('stock_moves', 'value', row),
      source: text('stock_moves', 'source', row),
    })),
    use: rows('stock_use').map((row) => ({
      material: text('stock_use', 'material', row),
      product: text('stock_use', 'product', row) || null,
      periodFrom: date('stock_use', 'period', row),
      normal: values.number('stock_use', 'normal', row),
      taken: values.number('stock_use', 'taken', row),
      isMeasured: text('stock_use', 'taken_is', row) === 'measured',
      beyond: values.number('stock_use', 'difference', row),
      beyondRatio: known('stock_use', 'difference_ratio', row),
    })),
    counts: rows('stock_counts').map((row) => ({
      date: date('stock_counts', 'date', row),
      item: text('stock_counts', 'item', row),
      counted: values.number('stock_counts', 'counted', row),
      expected: values.number('stock_counts', 'expected', row),
      difference: values.number('stock_counts', 'difference', row),
      value: values.number('stock_counts', 'value', row),
    })),
    shortages: ledger.shortages
      .filter(({ day }) => day <= last)
      .map(({ item, day, below, place }) => ({
        item,
        date: dayText(day),
        below: below.toNumber(),
        source: placeText(place),
      })),
    problems,
  };
}

/** Every figure of the sheet Stock in all; `opening_value` is called openingValue. */
function totals(plan: Plan, values: Values): Record<string, number> {
  const sheet = plan.sheets.find(({ id }) => id === 'stock_totals');
  const money = (sheet?.columns ?? []).filter(({ kind }) => kind === 'money');
  return Object.fromEntries(
    money.map(({ id }) => [
      id.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase()),
      values.number('stock_totals', id, 0),
    ]),
  );
}

function roll(values: Values, of: 'quantity' | 'value', row: number): StockRoll {
  const figure = (name: string): number => values.number('stock_items', `${name}_${of}`, row);
  return {
    opening: figure('opening'),
    bought: figure('bought'),
    made: figure('made'),
    used: figure('used'),
    sold: figure('sold'),
    waste: figure('waste'),
    given: figure('given'),
    counted: figure('counted'),
    corrected: of === 'value' ? figure('corrected') : 0,
    other: figure('other'),
    closing: figure('closing'),
  };
}
