import { describe, expect, it } from 'vitest';
import { priceBook } from '../../engine/priceBook.ts';
import { stockProblems } from '../../engine/stockBook.ts';
import { type BookText, demoBook, demoBooks, sourceOf } from '../support/books.ts';

/** What is told of a book as unlikely, looked at on a day. */
function told(book: BookText, today = '2026-11-26'): string[] {
  return stockProblems(priceBook(sourceOf(book)), undefined, today)
    .filter(({ code }) => code === 'unlikely')
    .map(({ where, message, severity }) => `${severity} ${where.file} ${where.column}: ${message}`);
}

/** The starter book with one more row. */
function with1(file: string, row: string): BookText {
  const book = demoBook('starter');
  return new Map([...book, [file, `${book.get(file)?.trimEnd()}\n${row}\n`]]);
}

describe('entries that are hardly meant', () => {
  it.each(demoBooks)('are none in the demo book %s', (name) => {
    expect(told(demoBook(name))).toEqual([]);
  });

  it.each([
    [
      'a sale still to come',
      'sales.csv',
      '2026-12-24,stall,fob long,1,9.50,,',
      'date: 2026-12-24 is still to come.',
    ],
    [
      'more back than was sold',
      'sales.csv',
      '2026-10-31,wholesale,lanyard eight,-2,-40,,',
      'pieces: More of lanyard eight came back from wholesale than was sold there until 2026-10-31.',
    ],
    [
      'a digit too many',
      'sales.csv',
      '2026-10-30,stall,fob long,1,95.00,,',
      'takings: What a piece of fob long brought is more than five times what the book plans.',
    ],
    [
      'a digit too few',
      'sales.csv',
      '2026-10-30,stall,fob long,1,0.95,,',
      'takings: What a piece of fob long brought is less than a fifth of what the book plans.',
    ],
    [
      'a thousandth of a spool',
      'purchases.csv',
      '2026-10-20,X 1,the cord mill,rust cord,1 ft,,62.00,,,',
      'amount: The cost of rust cord is more than five times what the book plans.',
    ],
    [
      'hours for minutes',
      'made.csv',
      '2026-10-30,fob long,2,45,,',
      'bench_hours: The time for fob long is more than five times what the book plans.',
    ],
    [
      'a count of nearly nothing',
      'stocktakes.csv',
      '2026-10-31,moss cord,5 ft,,',
      'quantity: The count of moss cord is off by more than half of what should be there.',
    ],
  ])('%s is told, as something to look at', (_, file, row, message) => {
    expect(told(with1(file, row))).toContain(`watch ${file} ${message}`);
  });

  it('know no future where nobody says which day it is', () => {
    const book = with1('sales.csv', '2026-12-24,stall,fob long,1,9.50,,');
    expect(stockProblems(priceBook(sourceOf(book))).filter(({ code }) => code === 'unlikely')).toEqual([]);
  });
});
