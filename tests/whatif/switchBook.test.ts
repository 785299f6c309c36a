import { describe, expect, it } from 'vitest';
import { openBook, priceOpened } from '../../engine/priceBook.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { whatIfBook } from '../../engine/whatIfBook.ts';
import { demoBook, sourceOf } from '../support/books.ts';

const names = ['dearer cord', 'new wage', 'site raises its fee', 'hard year', 'all tickets up', 'cheap fobs'];
/** Scenarios that set asking prices: of those that follow their cost, and of those set by hand. */
const tickets = `all tickets up,cord +12 %,,
all tickets up,asking prices +5 %,,
cheap fobs,asking price of fob short at stall = 7,,
cheap fobs,asking price of lanyard eight at stall -2.00,,
cheap fobs,wage +3,,
`;

describe('the switch of a workbook', () => {
  const starter = demoBook('starter');
  const book = sourceOf(
    new Map([...starter, ['scenarios.csv', `${starter.get('scenarios.csv')}${tickets}`]]),
  );

  it('shows today’s figures in every cell while it stands at base', () => {
    const today = priceOpened(openBook(book));
    const switched = switchBook(book);
    expect(switched.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    for (const sheet of today.plan?.sheets ?? []) {
      if (sheet.id === 'scenarios') continue;
      for (const column of sheet.columns) {
        for (let row = 0; row < sheet.rowCount; row += 1)
          expect(switched.values?.get(sheet.id, column.id, row)).toEqual(
            today.values?.get(sheet.id, column.id, row),
          );
      }
    }
  });

  it.each(names)('says of “%s” what whatif says', (name) => {
    const { report } = whatIfBook(book, { scenarios: [name], changes: [], on: '' });
    for (const [askingPrices, mode] of [
      ['stay as they are', 'held'],
      ['keep the margins', 'kept'],
    ] as const) {
      const { values } = switchBook(book, { scenario: name, on: '', askingPrices });
      expect(report?.scenarios[0]?.prices.length).toBeGreaterThan(90);
      report?.scenarios[0]?.prices.forEach((price, row) => {
        const state = price[mode];
        for (const [figure, column] of [
          ['unitCost', 'unit_cost'],
          ['floor', 'floor'],
          ['asking', 'asking'],
          ['margin', 'margin'],
          ['contribution', 'contribution'],
        ] as const)
          expect(values?.number('prices', column, row)).toBeCloseTo(state?.[figure] ?? Number.NaN, 9);
      });
    }
  });
});
