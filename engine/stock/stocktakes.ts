import { type Book, sameKey } from '../book/book.ts';
import type { Place } from '../book/problems/problem.ts';
import { coinsOf, type Exact, exact, exactOf, nothing } from '../money/exact.ts';
import { gather } from './gather.ts';
import type { Item } from './items.ts';
import { inDayOrder, type Move } from './move.ts';
import { datedRows } from './rows.ts';

/** What was counted of an item, beside what the book says was there. */
export interface CountedLine {
  readonly day: number;
  readonly item: string;
  readonly counted: Exact;
  readonly byBook: Exact;
  /** The first of its item, with a value: nothing was expected. */
  readonly isOpening: boolean;
  readonly place: Place;
}

interface Count {
  readonly day: number;
  readonly quantity: Exact;
  readonly valueCoins: number | null;
  readonly place: Place;
}

/**
 * Turns counts into movements: an opening balance where an item has a value and nothing before it, otherwise the
 * difference to what the book says at the end of the day, and a new value where one is given.
 *
 * @param moves all other movements
 * @returns all movements, item by item in the order of days
 */
export function withStocktakes(
  book: Book,
  items: ReadonlyMap<string, Item>,
  moves: readonly Move[],
): { byItem: ReadonlyMap<string, readonly Move[]>; counted: CountedLine[] } {
  const counts = readCounts(book, items);
  const others = new Map<string, Move[]>();
  for (const move of moves) gather(others, sameKey(move.item), move);
  const byItem = new Map<string, readonly Move[]>();
  const counted: CountedLine[] = [];
  for (const [key, { item }] of items) {
    const own = inDayOrder(others.get(key) ?? []);
    const takes = [...(counts.get(key) ?? [])].sort((one, other) => one.day - other.day);
    const all = own.slice();
    let onHand = nothing;
    let next = 0;
    for (const take of takes) {
      const before = own[next]?.day ?? Number.POSITIVE_INFINITY;
      const isOpening = take.valueCoins !== null && next === 0 && onHand.eq(0) && before >= take.day;
      const byBook = isOpening
        ? nothing
        : ((): Exact => {
            while (next < own.length && own[next]!.day <= take.day) {
              onHand = onHand.plus(own[next]!.quantity);
              next += 1;
            }
            return onHand;
          })();
      counted.push({ day: take.day, item, counted: take.quantity, byBook, isOpening, place: take.place });
      all.push(...movesOf(item, take, byBook, isOpening));
      onHand = take.quantity;
    }
    if (all.length > 0) byItem.set(key, inDayOrder(all));
  }
  return { byItem, counted };
}

function readCounts(book: Book, items: ReadonlyMap<string, Item>): ReadonlyMap<string, readonly Count[]> {
  const counts = new Map<string, Count[]>();
  for (const row of datedRows(book, 'stocktakes')) {
    const key = sameKey(row.text('item'));
    const quantity = row.number('quantity');
    if (!items.has(key) || quantity === null) continue;
    const value = row.number('value');
    const valueCoins = value === null ? null : coinsOf(exactOf(value), book.settings.currencyDigits);
    gather(counts, key, { day: row.day, quantity: exactOf(quantity), valueCoins, place: row.place });
  }
  return counts;
}

function movesOf(item: string, take: Count, byBook: Exact, isOpening: boolean): Move[] {
  const { day, quantity, valueCoins, place } = take;
  const head = { day, item, origin: '', partner: '', place };
  if (isOpening) {
    if (quantity.eq(0)) return [];
    return [{ ...head, what: 'opening', quantity, ownCoins: valueCoins ?? 0 }];
  }
  const difference = quantity.minus(byBook);
  return [
    ...(difference.eq(0) ? [] : [{ ...head, what: 'counted', quantity: difference } satisfies Move]),
    ...(valueCoins === null
      ? []
      : [{ ...head, what: 'revalued', quantity: exact(0), worthCoins: valueCoins } satisfies Move]),
  ];
}
