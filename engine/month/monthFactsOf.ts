import { type Book, sameKey } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import { type Exact, nothing } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';
import type { MoveKind, ValuedMove } from '../stock/move.ts';
import { balances, type StockLedger } from '../stock/stockLedger.ts';
import { chargeFacts, purchaseFacts } from './boughtFacts.ts';
import type { MonthFigure } from './closedMonth.ts';
import type {
  ChannelFact,
  MaterialFact,
  MonthFacts,
  ProductFact,
  SaleFact,
  TakenFact,
} from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';

/** Stock of an item at the end of a month, as it was closed. */
export interface ClosedStock {
  readonly part: string;
  readonly name: string;
  readonly quantity: Exact;
  readonly coins: number;
}

/** Reasons for which something leaves the shelf otherwise than into pieces or by a sale. */
const takenKinds: readonly MoveKind[] = ['waste', 'sample', 'gift', 'own use', 'other'];

/**
 * A month of a valued history, without its variances, which the book's own sheets work out, and without what comes
 * late from closed months.
 *
 * @param channels what channels take
 * @param closed stock at the end of the month before, where that is closed; by part and name, as `stockKey` says
 */
export function monthFactsOf(
  month: MonthPeriod,
  ledger: StockLedger,
  book: Book,
  channels: readonly ChannelFact[],
  closed?: ReadonlyMap<string, ClosedStock>,
): Omit<MonthFacts, 'variances' | 'late' | 'lateLines'> {
  const inMonth = ({ day }: { readonly day: number }): boolean => day >= month.first && day <= month.last;
  const moves = ledger.moves.filter(inMonth);
  const before = balances(ledger, month.first - 1);
  const after = balances(ledger, month.last);
  const materials: MaterialFact[] = [];
  const products: ProductFact[] = [];
  for (const { item, kind, unit } of itemsOf(ledger, closed)) {
    const own = moves.filter((move) => sameKey(move.item) === sameKey(item));
    const opening = before.get(item) ?? { quantity: nothing, valueCoins: 0 };
    const closing = after.get(item) ?? { quantity: nothing, valueCoins: 0 };
    const brought = sumOf(own, ['opening']);
    const openingQuantity = opening.quantity.plus(brought.quantity);
    const openingCoins = opening.valueCoins + brought.coins;
    const part = kind === 'material' ? 'materials' : 'finished goods';
    // What a closed month does not name was not there at its end: an opening balance after it is a change too.
    const was =
      closed === undefined
        ? { quantity: openingQuantity, coins: openingCoins }
        : (closed.get(stockKey(part, item)) ?? { quantity: nothing, coins: 0 });
    const counted = sumOf(own, ['counted', 'revalued']);
    const common = {
      openingQuantity: was.quantity.toNumber(),
      openingCoins: was.coins,
      lateQuantity: openingQuantity.minus(was.quantity).toNumber(),
      lateCoins: openingCoins - was.coins,
      timesBelow: ledger.shortages.filter((each) => inMonth(each) && sameKey(each.item) === sameKey(item))
        .length,
      countedQuantity: counted.quantity.toNumber(),
      countedCoins: counted.coins,
      correctedCoins: sumOf(own, ['correction']).coins,
      closingQuantity: closing.quantity.toNumber(),
      closingCoins: closing.valueCoins,
    };
    const isStill = own.length === 0 && closing.quantity.eq(0) && closing.valueCoins === 0;
    if (isStill && common.openingCoins === 0 && common.openingQuantity === 0) continue;
    if (kind === 'material') {
      const used = sumOf(own, ['used']);
      materials.push({
        ...common,
        material: item,
        unit,
        usedQuantity: used.quantity.negated().toNumber(),
        usedCoins: -used.coins,
      });
    } else {
      const made = ledger.produced.filter((line) => inMonth(line) && sameKey(line.product) === sameKey(item));
      const coins = (of: (line: (typeof made)[number]) => number): number =>
        made.reduce((sum, line) => sum + of(line), 0);
      products.push({
        ...common,
        product: item,
        madeQuantity: sumOf(own, ['made']).quantity.toNumber(),
        materialsCoins: coins((line) => line.materialCoins),
        labourCoins: coins((line) => line.labourCoins),
        overheadCoins: coins((line) => line.overheadCoins),
      });
    }
  }
  return {
    channels,
    sales: ledger.sold.filter(inMonth).map(
      (line): SaleFact => ({
        day: line.day,
        channel: line.channel,
        product: line.product,
        receipt: line.receipt,
        pieces: line.pieces,
        takingsCoins: line.takingsCoins,
        taxCoins: line.taxCoins,
        feesCoins: line.feesCoins,
        costCoins: line.costCoins,
      }),
    ),
    purchases: purchaseFacts(month, ledger, book),
    charges: chargeFacts(month, ledger, book),
    materials,
    products,
    taken: moves
      .filter(({ what }) => takenKinds.includes(what))
      .map((move): TakenFact => {
        const isMaterial = ledger.items.some(
          ({ item, kind }) => kind === 'material' && sameKey(item) === sameKey(move.item),
        );
        return {
          day: move.day,
          item: move.item,
          stock: isMaterial ? 'materials' : 'finished goods',
          reason: move.what,
          quantity: move.quantity.negated().toNumber(),
          valueCoins: -move.valueCoins,
        };
      }),
  };
}

/** Everything that moved, and what was closed with stock and has no movement in the book any more. */
function itemsOf(
  ledger: StockLedger,
  closed: ReadonlyMap<string, ClosedStock> = new Map(),
): { readonly item: string; readonly kind: 'material' | 'product'; readonly unit: string }[] {
  const partOf = { material: 'materials', product: 'finished goods' } as const;
  const known = new Set(ledger.items.map(({ item, kind }) => stockKey(partOf[kind], item)));
  const gone = [...closed].filter(([key]) => !known.has(key));
  return [
    ...ledger.items,
    ...gone.map(([, { part, name }]) => ({
      item: name,
      kind: part === 'materials' ? ('material' as const) : ('product' as const),
      unit: '',
    })),
  ];
}

/** How an item of closed stock is called. */
export function stockKey(part: MonthFigure['part'], name: string): string {
  return `${part}|${sameKey(name)}`;
}

function sumOf(
  moves: readonly ValuedMove[],
  kinds: readonly MoveKind[],
): { readonly quantity: Exact; readonly coins: number } {
  const own = moves.filter(({ what }) => kinds.includes(what));
  return {
    quantity: own.reduce((sum, move) => sum.plus(move.quantity), nothing),
    coins: own.reduce((sum, move) => sum + move.valueCoins, 0),
  };
}

/** What channels take, by the calculated book. */
export function channelFacts(plan: Plan, values: Values): ChannelFact[] {
  const count = plan.sheets.find(({ id }) => id === 'channels')?.rowCount ?? 0;
  return Array.from({ length: count }, (_, row) => {
    const number = (column: string): number => values.number('channels', column, row);
    return {
      channel: String(values.get('channels', 'channel', row)),
      includesTax: values.get('channels', 'prices_include_tax', row) === 'yes',
      taxRatio: number('tax'),
      feeOnNet: number('fee_on_net'),
      feeOnGross: number('fee_on_gross'),
      feeFixed: number('fee_fixed'),
      piecesPerOrder: number('pieces_per_order'),
      postagePaid: number('postage_paid'),
    };
  });
}
