import { type Book, joinKeys, type Table } from '../book/book.ts';
import { periodEnd, periodStart } from '../book/measures/day.ts';
import { coinsOf, type Exact, exactOf, moneyOf, nothing } from '../money/exact.ts';
import { datedRows } from './rows.ts';
import type { StockLedger } from './stockLedger.ts';
import { figure, type Row, type Span, tableOf } from './stockTables.ts';
import { beyondPieces } from './use.ts';

/**
 * A ledger beside what was planned, as tables that the sheets of variances show: quantities and what they cost. What
 * that should have cost, and every difference, is for their formulas to say.
 */
export function varianceTables(ledger: StockLedger, book: Book, span: Span): Map<string, Table> {
  const digits = book.settings.currencyDigits;
  const isIn = ({ day }: { readonly day: number }): boolean => day >= span.from && day <= span.to;
  const produced = ledger.produced.filter(isIn);
  const products = [...new Set(produced.map(({ product }) => product))];
  const productNumber = new Map(products.map((product, at) => [product, `product ${at + 1}`]));
  const use = usePairs(ledger, isIn);
  for (const { product } of use.values())
    if (!productNumber.has(product)) {
      productNumber.set(product, `product ${products.length + 1}`);
      products.push(product);
    }
  const materials = materialRows(ledger, use, isIn, digits);
  const numbers = new Map(materials.map(({ material, number }) => [material, number]));
  const useRows = materials.flatMap(({ material }) =>
    [...use.values()]
      .filter((pair) => pair.material === material)
      .map(
        (pair): Row => ({
          material_number: numbers.get(material) ?? '',
          material,
          product_number: productNumber.get(pair.product) ?? '',
          product: pair.product,
          normal: figure(pair.normal),
          taken: figure(pair.taken),
        }),
      ),
  );
  const productRows = products.map((product): Row => {
    const own = produced.filter((line) => line.product === product);
    const labour = own.reduce((sum, { labourCoins }) => sum + labourCoins, 0);
    return {
      number: productNumber.get(product) ?? '',
      product,
      pieces: own.reduce((sum, { pieces }) => sum + pieces, 0),
      hours: figure(own.reduce((sum, { hours }) => sum.plus(hours), nothing)),
      paid: moneyOf(labour, digits),
    };
  });
  const paid = datedRows(book, 'overheads_paid').filter(isIn);
  const overheadPaid = paid.reduce(
    (sum, row) => sum + coinsOf(exactOf(row.number('amount') ?? 0), digits),
    0,
  );
  const totals: Row = {
    from: span.from,
    to: span.to,
    overhead_months: figure(monthsOf(span)),
    overhead_paid: paid.length === 0 ? null : moneyOf(overheadPaid, digits),
  };
  return new Map([
    ['variance_totals', tableOf('variance_totals', [totals], '')],
    [
      'variance_materials',
      tableOf(
        'variance_materials',
        materials.map(({ row }) => row),
        '',
      ),
    ],
    ['variance_use', tableOf('variance_use', useRows, 'use')],
    ['variance_products', tableOf('variance_products', productRows, '')],
  ]);
}

interface UsePair {
  readonly material: string;
  readonly product: string;
  normal: Exact;
  taken: Exact;
}

/** What each product should have taken of each material, and what it took. */
function usePairs(
  ledger: StockLedger,
  isIn: (dated: { readonly day: number }) => boolean,
): ReadonlyMap<string, UsePair> {
  const pairs = new Map<string, UsePair>();
  const pairOf = (material: string, product: string): UsePair => {
    const key = joinKeys([material, product]);
    const pair = pairs.get(key) ?? { material, product, normal: nothing, taken: nothing };
    pairs.set(key, pair);
    return pair;
  };
  for (const { needs, product } of ledger.produced.filter(isIn))
    for (const { material, quantity } of needs) {
      const pair = pairOf(material, product);
      pair.normal = pair.normal.plus(quantity);
    }
  for (const move of ledger.moves.filter(isIn)) {
    if (move.what !== 'used' && !(move.what === 'waste' && move.origin === beyondPieces)) continue;
    const pair = pairOf(move.item, move.partner);
    pair.taken = pair.taken.minus(move.quantity);
  }
  return pairs;
}

/** Materials that were bought, used or lost, in the order of their table. */
function materialRows(
  ledger: StockLedger,
  use: ReadonlyMap<string, UsePair>,
  isIn: (dated: { readonly day: number }) => boolean,
  digits: number,
): { readonly material: string; readonly number: string; readonly row: Row }[] {
  const used = new Set([...use.values()].map(({ material }) => material));
  return ledger.items.flatMap(({ item: material, kind, unit }, at) => {
    if (kind !== 'material') return [];
    const bought = ledger.purchases.filter((line) => line.material === material && isIn(line));
    const lost = ledger.moves.filter(
      (move) =>
        move.item === material &&
        isIn(move) &&
        (move.what === 'counted' || (move.what === 'waste' && move.origin !== beyondPieces)),
    );
    if (bought.length === 0 && lost.length === 0 && !used.has(material)) return [];
    const number = `material ${at + 1}`;
    const paidCoins = bought.reduce((sum, { landedCoins }) => sum + landedCoins, 0);
    const row: Row = {
      number,
      material,
      unit,
      bought: figure(bought.reduce((sum, { quantity }) => sum.plus(quantity), nothing)),
      paid: moneyOf(paidCoins, digits),
      lost: figure(lost.reduce((sum, { quantity }) => sum.minus(quantity), nothing)),
    };
    return [{ material, number, row }];
  });
}

/** Calendar months of a span; of one that is only partly in it, the share of its days. */
function monthsOf({ from, to }: Span): Exact {
  let months = nothing;
  for (let day = from; day <= to; ) {
    const [start, end] = [periodStart(day, 1), periodEnd(day, 1)];
    const until = Math.min(end, to);
    months = months.plus(exactOf(until - day + 1).div(end - start + 1));
    day = until + 1;
  }
  return months;
}
