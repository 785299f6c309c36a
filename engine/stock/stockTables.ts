import type { BookValue, Table } from '../book/book.ts';
import { periodStart } from '../book/measures/day.ts';
import type { Place } from '../book/problems/problem.ts';
import type { Settings } from '../book/settings.ts';
import { type Exact, moneyOf } from '../money/exact.ts';
import type { MoveKind } from './move.ts';
import { balances, type StockLedger } from './stockLedger.ts';

export type Row = Readonly<Record<string, BookValue>>;

/** From the first day to the last, both in it. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The column of the sheet Stock that adds a movement up. */
export const columnOf: Readonly<Record<MoveKind, string>> = Object.freeze({
  opening: 'bought',
  bought: 'bought',
  'returned to supplier': 'bought',
  made: 'made',
  used: 'used',
  waste: 'waste',
  sample: 'given',
  gift: 'given',
  'own use': 'given',
  other: 'given',
  sold: 'sold',
  'returned by buyer': 'sold',
  counted: 'counted',
  revalued: 'corrected',
  correction: 'corrected',
});

/**
 * A ledger as tables that the sheets of stock show over a span of days. They hold what was found movement by
 * movement, and nothing that a formula can say.
 */
export function stockTables(ledger: StockLedger, settings: Settings, span: Span): Map<string, Table> {
  const money = (coins: number): number => moneyOf(coins, settings.currencyDigits);
  const isIn = ({ day }: { readonly day: number }): boolean => day >= span.from && day <= span.to;
  const opening = balances(ledger, span.from - 1);
  const closing = balances(ledger, span.to);
  const numberOf = new Map(ledger.items.map(({ item }, at) => [item, `item ${at + 1}`]));
  const items = ledger.items.map(
    ({ item, kind, unit }): Row => ({
      number: numberOf.get(item) ?? '',
      item,
      kind,
      unit,
      opening_quantity: figure(opening.get(item)?.quantity),
      opening_value: money(opening.get(item)?.valueCoins ?? 0),
      ledger_quantity: figure(closing.get(item)?.quantity),
      ledger_value: money(closing.get(item)?.valueCoins ?? 0),
    }),
  );
  const rank = new Map(ledger.items.map(({ item }, at) => [item, at]));
  const moves = ledger.moves
    .filter(isIn)
    .map((move, at) => ({ move, at }))
    .sort(
      (one, other) => (rank.get(one.move.item) ?? 0) - (rank.get(other.move.item) ?? 0) || one.at - other.at,
    )
    .map(
      ({ move }): Row => ({
        item_number: numberOf.get(move.item) ?? '',
        item: move.item,
        date: move.day,
        what: move.what,
        column: columnOf[move.what],
        partner: move.partner,
        quantity: figure(move.quantity),
        value: money(move.valueCoins),
        source: placeWords(move.place),
      }),
    );
  const made = ledger.produced.filter(isIn).map(
    (line): Row => ({
      date: line.day,
      product: line.product,
      pieces: line.pieces,
      hours: figure(line.hours),
      labour_per_hour: figure(line.labourPerHour),
      overhead_per_hour: figure(line.overheadPerHour),
      materials: money(line.materialCoins),
      source: placeWords(line.place),
    }),
  );
  const sold = ledger.sold.filter(isIn).map(
    (line): Row => ({
      date: line.day,
      channel: line.channel,
      product: line.product,
      pieces: line.pieces,
      takings: money(line.takingsCoins),
      tax_given: line.taxCoins === null ? null : money(line.taxCoins),
      fees_given: line.feesCoins === null ? null : money(line.feesCoins),
      cost: money(line.costCoins),
      source: placeWords(line.place),
    }),
  );
  const firstPeriod = periodStart(span.from, ledger.rule.periodMonths);
  const use = ledger.use
    .filter((line) => line.periodStart >= firstPeriod && line.periodStart <= span.to)
    .map(
      (line): Row => ({
        material: line.material,
        product: line.product,
        period: line.periodStart,
        normal: figure(line.normal),
        taken: figure(line.taken),
        taken_is: line.isMeasured ? 'measured' : 'expected',
      }),
    );
  const counts = ledger.counted
    .filter((line) => isIn(line) && !line.isOpening)
    .map((line): Row => {
      const own = ledger.moves.find(({ what, place }) => what === 'counted' && place === line.place);
      return {
        date: line.day,
        item: line.item,
        counted: figure(line.counted),
        expected: figure(line.byBook),
        value: money(own?.valueCoins ?? 0),
      };
    });
  const bought = ledger.purchases.filter(isIn);
  const totals: Row = {
    from: span.from,
    to: span.to,
    purchases_value: money(bought.reduce((sum, { landedCoins }) => sum + landedCoins, 0)),
    returns_loss: money(bought.reduce((sum, line) => sum + line.landedCoins - line.stockCoins, 0)),
  };
  return new Map([
    ['stock_totals', tableOf('stock_totals', [totals], '')],
    ['stock_items', tableOf('stock_items', items, '')],
    ['stock_moves', tableOf('stock_moves', moves, 'move')],
    ['stock_made', tableOf('stock_made', made, 'made')],
    ['stock_sold', tableOf('stock_sold', sold, 'sale')],
    ['stock_use', tableOf('stock_use', use, 'use')],
    ['stock_counts', tableOf('stock_counts', counts, 'count')],
  ]);
}

export function figure(value: Exact | undefined): number {
  return (value?.toNumber() ?? 0) + 0;
}

function placeWords({ file, row }: Place): string {
  return row === undefined ? file : `${file} row ${row}`;
}

/** Rows with a name of ours each, where they have none. */
export function tableOf(name: string, rows: readonly Row[], line: string): Table {
  const named = line === '' ? rows : rows.map((row, at) => ({ line: `${line} ${at + 1}`, ...row }));
  const columns = [...new Set(named.flatMap((row) => Object.keys(row)))];
  return {
    name,
    rowCount: named.length,
    columns: new Map(
      columns.map((column) => [
        column,
        named.map((row: Row): BookValue => (row[column] === '' ? null : (row[column] ?? null))),
      ]),
    ),
    places: named.map(() => ({ file: name })),
  };
}
