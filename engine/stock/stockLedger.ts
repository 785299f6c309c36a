import type { Book } from '../book/book.ts';
import { dayText } from '../book/measures/day.ts';
import type { Place, Problem } from '../book/problems/problem.ts';
import type { Values } from '../calc/values.ts';
import { exact, nothing } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';
import { type Item, readItems } from './items.ts';
import type { Layer } from './layers.ts';
import {
  inDayOrder,
  type Move,
  type Shortage,
  type StockMethod,
  type StockTiming,
  type ValuedMove,
} from './move.ts';
import { type ProducedLine, readProduced } from './production.ts';
import { type PurchaseLine, purchaseMoves, readPurchases } from './purchases.ts';
import { readSold, type SoldLine, soldMoves } from './sales.ts';
import { type CountedLine, withStocktakes } from './stocktakes.ts';
import { type Terms, type TermsOn, termsOf } from './terms.ts';
import { readUse, type UseLine } from './use.ts';
import { type ValuingRule, valueItem } from './valueItem.ts';

/** Pieces that were finished, with the materials that really went into them. */
export interface CostedProduction extends ProducedLine {
  readonly materialCoins: number;
}

/** A line of a purchase with what stock changed by; less than was paid back, where goods went back at a loss. */
export interface CostedPurchase extends PurchaseLine {
  readonly stockCoins: number;
}

/** A sale with what its pieces cost; negative for what came back. */
export interface CostedSale extends SoldLine {
  readonly costCoins: number;
}

/** Everything that happened, valued. Money in smallest coins, in whole ones. */
export interface StockLedger {
  readonly rule: ValuingRule;
  readonly termsOn: TermsOn;
  /** Everything that moved: materials, then products, in the order of their tables. */
  readonly items: readonly Item[];
  /** In the order of days. */
  readonly moves: readonly ValuedMove[];
  readonly purchases: readonly CostedPurchase[];
  readonly produced: readonly CostedProduction[];
  readonly sold: readonly CostedSale[];
  readonly use: readonly UseLine[];
  readonly counted: readonly CountedLine[];
  readonly shortages: readonly Shortage[];
  /** What is left in the end of each item, by the layers it came in. */
  readonly layers: ReadonlyMap<string, readonly Layer[]>;
}

const months: Readonly<Record<string, number>> = Object.freeze({ month: 1, quarter: 3, year: 12 });

/** How the book values its stock; what it does not say has been filled in when it was read. */
export function valuingRule(book: Book): ValuingRule {
  const word = (name: string, otherwise: string): string => String(book.record.get(name) ?? otherwise);
  return {
    method: word('stock_method', 'average') as StockMethod,
    timing: word('stock_timing', 'perpetual') as StockTiming,
    periodMonths: months[word('stock_period', 'month')] ?? 1,
  };
}

/**
 * Reads what happened from the tables of a book and values it: materials first, then the pieces that were made of
 * them, so that a coin that leaves one comes into another or is told as an expense.
 *
 * @param plan the calculated book and its values: what materials and pieces should cost and take
 * @param keptTerms what a closed month says of that instead
 */
export function stockLedger(
  book: Book,
  plan: Plan,
  values: Values,
  keptTerms: KeptTerms = (_, today) => today,
): { ledger: StockLedger; problems: Problem[] } {
  const problems: Problem[] = [];
  const rule = valuingRule(book);
  const items = readItems(plan, values);
  const termsOn = termsByDay(termsOf(book, plan, values, items), keptTerms);
  const purchases = readPurchases(book, items, termsOn, problems);
  const produced = readProduced(book, items, termsOn);
  const use = readUse(book, produced, items, rule.periodMonths, problems);
  const sold = readSold(book, items, problems);
  const { byItem, counted } = withStocktakes(book, items, [
    ...purchaseMoves(purchases),
    ...use.moves,
    ...producedMoves(produced),
    ...soldMoves(sold),
  ]);
  const valued = new Map<string, ReturnType<typeof valueItem>>();
  const usual = (item: Item) => item.standardUnit.times(exact(10).pow(book.settings.currencyDigits));
  const value = (kind: Item['kind'], altered: (move: Move) => Move): void => {
    for (const [key, item] of items) {
      const moves = byItem.get(key);
      if (item.kind === kind && moves !== undefined)
        valued.set(key, valueItem(moves.map(altered), usual(item), rule));
    }
  };
  value('material', (move) => move);
  const materialCoins = new Map<Place, number>();
  for (const { moves } of valued.values())
    for (const { what, place, valueCoins } of moves)
      if (what === 'used') materialCoins.set(place, (materialCoins.get(place) ?? 0) - valueCoins);
  const costed = produced.map((line) => ({ ...line, materialCoins: materialCoins.get(line.place) ?? 0 }));
  const costs = new Map(
    costed.map((line) => [line.place, line.materialCoins + line.labourCoins + line.overheadCoins]),
  );
  value('product', (move) =>
    move.what === 'made' ? { ...move, ownCoins: costs.get(move.place) ?? 0 } : move,
  );
  const moved = [...items].filter(([key]) => valued.has(key));
  const all = moved.flatMap(([key]) => valued.get(key)?.moves ?? []);
  const saleCosts = new Map<Place, number>();
  const purchaseValues = new Map<Place, number>();
  for (const { what, place, valueCoins } of all) {
    if (what === 'sold' || what === 'returned by buyer') saleCosts.set(place, -valueCoins);
    if (what === 'bought' || what === 'returned to supplier') purchaseValues.set(place, valueCoins);
  }
  return {
    ledger: {
      rule,
      termsOn,
      items: moved.map(([, item]) => item),
      moves: inDayOrder(all),
      purchases: purchases.map((line) => ({ ...line, stockCoins: purchaseValues.get(line.place) ?? 0 })),
      produced: costed,
      sold: sold.map((line) => ({ ...line, costCoins: saleCosts.get(line.place) ?? 0 })),
      use: use.lines,
      counted,
      shortages: moved.flatMap(([key]) => valued.get(key)?.shortages ?? []),
      layers: new Map(moved.map(([key, { item }]) => [item, valued.get(key)?.layers ?? []])),
    },
    problems,
  };
}

/** The terms of a month (2026-10) that is closed; those of today, where it is not. */
export type KeptTerms = (month: string, today: Terms) => Terms;

function termsByDay(today: Terms, kept: KeptTerms): TermsOn {
  const known = new Map<string, Terms>();
  return (day) => {
    const month = dayText(day).slice(0, 'yyyy-mm'.length);
    const terms = known.get(month) ?? kept(month, today);
    known.set(month, terms);
    return terms;
  };
}

function producedMoves(lines: readonly ProducedLine[]): Move[] {
  return lines.map((line) => ({
    day: line.day,
    item: line.product,
    what: 'made',
    quantity: exact(line.pieces),
    ownCoins: 0,
    origin: '',
    partner: '',
    place: line.place,
  }));
}

/** What is on hand of each item at the end of a day, by count and by value in smallest coins. */
export function balances(
  ledger: StockLedger,
  day: number,
): ReadonlyMap<string, { quantity: typeof nothing; valueCoins: number }> {
  const found = new Map(ledger.items.map(({ item }) => [item, { quantity: nothing, valueCoins: 0 }]));
  for (const move of ledger.moves) {
    const before = found.get(move.item);
    if (before === undefined || move.day > day) continue;
    found.set(move.item, {
      quantity: before.quantity.plus(move.quantity),
      valueCoins: before.valueCoins + move.valueCoins,
    });
  }
  return found;
}
