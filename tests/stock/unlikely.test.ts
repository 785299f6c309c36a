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

  it('say their figures as the book writes them, with the unit of the material', () => {
    const figures = (book: BookText): (string | undefined)[] =>
      stockProblems(priceBook(sourceOf(book))).flatMap(({ code, found, accepted }) =>
        code === 'unlikely' ? [found, accepted] : [],
      );
    const bought = with1('purchases.csv', '2026-10-20,X 1,the cord mill,rust cord,1 ft,,62.00,,,');
    expect(figures(bought)).toEqual(['62.0000 USD per ft', 'about 0.0665 USD per ft']);
    const buckle = with1('purchases.csv', '2026-10-20,X 1,the cord mill,side buckle,1,,62.00,,,');
    expect(figures(buckle)[0]).toBe('62.0000 USD each');
    const sold = with1('sales.csv', '2026-10-30,stall,fob long,1,95.00,,');
    expect(figures(sold)).toEqual(['95.00 USD', 'about 9.50 USD']);
  });

  it('are told once where most rows are far off, as the slip is then in the plan', () => {
    const book = demoBook('starter');
    const yaml = book.get('book.yaml')?.replace('wage_per_hour: 22.00', 'wage_per_hour: 2200') ?? '';
    const sales = told(new Map([...book, ['book.yaml', yaml]])).filter((each) => each.includes('sales.csv'));
    expect(sales).toHaveLength(1);
    expect(sales[0]).toMatch(/: In \d+ of 34 rows of sales\.csv what a piece brought is far from/);
  });

  it('know no future where nobody says which day it is', () => {
    const book = with1('sales.csv', '2026-12-24,stall,fob long,1,9.50,,');
    expect(stockProblems(priceBook(sourceOf(book))).filter(({ code }) => code === 'unlikely')).toEqual([]);
  });
});
