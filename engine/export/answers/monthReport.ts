import { dayText } from '../../book/measures/day.ts';
import type { Problem } from '../../book/problems/problem.ts';
import type { Values } from '../../calc/values.ts';
import { moneyOf } from '../../money/exact.ts';
import type { Plan } from '../../sheets/plan.ts';

/** A channel's month; money in the book's currency. */
export interface ChannelMonth {
  readonly channel: string;
  readonly piecesSold: number;
  readonly piecesReturned: number;
  readonly net: number;
  readonly tax: number;
  readonly gross: number;
  readonly fees: number;
  readonly shouldArrive: number;
  readonly costOfSales: number;
  readonly grossMargin: number;
}

/** What of stock was there, came and went; money in the book's currency. */
export interface StockMonth {
  readonly opening: number;
  readonly changedSinceClosing: number;
  /** Bought, or made. */
  readonly in: number;
  /** Into pieces, or sold less what came back. */
  readonly out: number;
  readonly taken: number;
  readonly counted: number;
  readonly corrected: number;
  readonly closing: number;
}

export interface JournalRow {
  readonly entry: string;
  /** ISO 8601. */
  readonly date: string;
  readonly account: string;
  readonly name: string;
  readonly posting: string;
  readonly text: string;
  readonly debit: number;
  readonly credit: number;
}

/** What `sennit month` tells, unrounded, with units in the names. */
export interface MonthReport {
  readonly month: string;
  readonly name: string;
  readonly currency: string;
  readonly stockValuedBy: string;
  readonly closedOn: string | null;
  readonly changedSinceClosing: readonly unknown[];
  /** What has changed in earlier closed months and is posted in this one; debits positive. */
  readonly lateChanges: readonly {
    readonly posting: string;
    readonly channel: string | null;
    readonly change: number;
  }[];
  readonly netSales: number;
  readonly costOfSales: number;
  readonly grossMargin: number;
  /** Of the net sales; null where there are none. */
  readonly grossMarginRatio: number | null;
  readonly taxCollected: number;
  /** Of the tax collected and reclaimed, what is posted for closed months. */
  readonly taxCollectedLate: number;
  readonly taxReclaimedLate: number;
  readonly taxReclaimed: number;
  readonly taxBalance: number;
  readonly channels: readonly ChannelMonth[];
  readonly allChannels: ChannelMonth;
  readonly materials: StockMonth;
  readonly finishedGoods: StockMonth;
  /** Positive is above plan, which is unfavourable. */
  readonly variances: {
    readonly price: number;
    readonly usage: number;
    readonly lost: number;
    readonly wageRate: number;
    readonly efficiency: number;
    readonly overhead: number;
  };
  readonly debits: number;
  readonly credits: number;
  readonly journal: readonly JournalRow[];
  readonly problems: readonly Problem[];
}

/** The figures of a month that its maker is shown; each stands in a cell of the workbook. */
export function monthReport(month: {
  readonly month: { readonly id: string; readonly name: string };
  readonly plan: Plan;
  readonly values: Values;
  readonly problems: readonly Problem[];
  readonly stockRule: string;
  readonly closed?: { readonly closedOn: string };
  readonly changes: readonly unknown[];
  readonly lateChanges: MonthReport['lateChanges'];
  readonly journal: readonly {
    readonly entry: string;
    readonly day: number;
    readonly code: string;
    readonly name: string;
    readonly posting: string;
    readonly text: string;
    readonly debitCoins: number;
    readonly creditCoins: number;
  }[];
}): MonthReport {
  const { plan, values } = month;
  const { currency, currencyDigits } = plan.settings;
  const total = (sheet: string, column: string): number => {
    const found = values.total(sheet, column);
    return typeof found === 'number' ? Number(found.toFixed(currencyDigits)) : 0;
  };
  const rows = (sheet: string): number => plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
  const money = (coins: number): number => moneyOf(coins, currencyDigits);
  const sum = (of: (line: (typeof month.journal)[number]) => number): number =>
    money(month.journal.reduce((so, line) => so + of(line), 0));
  const stock = (sheet: string, comesIn: string, goesOut: string): StockMonth => ({
    opening: total(sheet, 'opening_value'),
    changedSinceClosing: total(sheet, 'late_value'),
    in: total(sheet, comesIn),
    out: total(sheet, goesOut),
    taken: total(sheet, 'taken_value'),
    counted: total(sheet, 'counted_value'),
    corrected: total(sheet, 'corrected_value'),
    closing: total(sheet, 'closing_value'),
  });
  const lateTax = (side: string, column: string): number => {
    const row = Array.from({ length: rows('tax') }, (_, at) => at).find(
      (at) => values.get('tax', 'side', at) === side,
    );
    return row === undefined ? 0 : values.number('tax', column, row);
  };
  const net = total('channels', 'net');
  const margin = total('channels', 'margin');
  return {
    month: month.month.id,
    name: month.month.name,
    currency,
    stockValuedBy: month.stockRule,
    closedOn: month.closed?.closedOn ?? null,
    changedSinceClosing: month.changes,
    lateChanges: month.lateChanges,
    netSales: net,
    costOfSales: total('channels', 'cost'),
    grossMargin: margin,
    grossMarginRatio: net > 0 ? margin / net : null,
    taxCollected: total('tax', 'collected'),
    taxCollectedLate: lateTax('collected late', 'collected'),
    taxReclaimedLate: lateTax('reclaimed late', 'paid'),
    taxReclaimed: total('tax', 'paid'),
    taxBalance: total('tax', 'balance'),
    channels: Array.from({ length: rows('channels') }, (_, row) =>
      channelMonth(String(values.get('channels', 'channel', row)), (column) =>
        values.number('channels', column, row),
      ),
    ),
    allChannels: channelMonth('all', (column) => total('channels', column)),
    materials: stock('materials', 'bought_value', 'used_value'),
    finishedGoods: stock('products', 'made_value', 'sold_value'),
    variances: {
      price: total('variances', 'price'),
      usage: total('variances', 'usage'),
      lost: total('variances', 'lost'),
      wageRate: total('variances', 'wage_rate'),
      efficiency: total('variances', 'efficiency'),
      overhead: total('variances', 'overhead'),
    },
    debits: sum(({ debitCoins }) => debitCoins),
    credits: sum(({ creditCoins }) => creditCoins),
    journal: month.journal.map((line) => ({
      entry: line.entry,
      date: dayText(line.day),
      account: line.code,
      name: line.name,
      posting: line.posting,
      text: line.text,
      debit: money(line.debitCoins),
      credit: money(line.creditCoins),
    })),
    problems: month.problems,
  };
}

function channelMonth(channel: string, number: (column: string) => number): ChannelMonth {
  return {
    channel,
    piecesSold: number('pieces_sold'),
    piecesReturned: number('pieces_returned'),
    net: number('net'),
    tax: number('tax'),
    gross: number('gross'),
    fees: number('fees'),
    shouldArrive: number('arrives'),
    costOfSales: number('cost'),
    grossMargin: number('margin'),
  };
}
