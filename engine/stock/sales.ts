import { type Book, sameKey } from '../book/book.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { coinsOf, exact, exactOf } from '../money/exact.ts';
import type { Item } from './items.ts';
import type { Move } from './move.ts';
import { datedRows } from './rows.ts';

/** A row of sales.csv; what came back from a buyer is negative. Smallest coins; blank cells are null. */
export interface SoldLine {
  readonly day: number;
  readonly channel: string;
  readonly product: string;
  readonly pieces: number;
  readonly takingsCoins: number;
  readonly taxCoins: number | null;
  readonly feesCoins: number | null;
  readonly receipt: string;
  readonly place: Place;
}

export function readSold(book: Book, items: ReadonlyMap<string, Item>, problems: Problem[]): SoldLine[] {
  const digits = book.settings.currencyDigits;
  return datedRows(book, 'sales').flatMap((row): SoldLine[] => {
    const item = items.get(sameKey(row.text('product')));
    const pieces = row.number('pieces');
    const takings = row.number('takings');
    if (item === undefined || pieces === null || takings === null) return [];
    if (pieces === 0 || (pieces > 0 && takings < 0) || (pieces < 0 && takings > 0)) {
      problems.push(
        problem(
          'out-of-range',
          { ...row.place, column: pieces === 0 ? 'pieces' : 'takings' },
          pieces === 0 ? 'The row is of no pieces.' : 'Pieces and takings have opposite signs.',
          {
            found: pieces === 0 ? '0' : String(takings),
            accepted: 'both positive for what was sold, both negative for what came back',
            mend: 'Correct the row, or remove it.',
          },
        ),
      );
      return [];
    }
    const coins = (column: string): number | null => {
      const value = row.number(column);
      return value === null ? null : coinsOf(exactOf(value), digits);
    };
    return [
      {
        day: row.day,
        channel: row.text('channel'),
        product: item.item,
        pieces,
        takingsCoins: coins('takings') ?? 0,
        taxCoins: coins('tax'),
        feesCoins: coins('fees'),
        receipt: row.text('receipt'),
        place: row.place,
      },
    ];
  });
}

/** Sales as movements of stock. */
export function soldMoves(lines: readonly SoldLine[]): Move[] {
  return lines.map((line) => ({
    day: line.day,
    item: line.product,
    what: line.pieces > 0 ? 'sold' : 'returned by buyer',
    quantity: exact(-line.pieces),
    origin: line.channel,
    partner: line.channel,
    place: line.place,
  }));
}
