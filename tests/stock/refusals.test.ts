import { describe, expect, it } from 'vitest';
import { stockBook } from '../../engine/stockBook.ts';
import { sourceOf } from '../support/books.ts';
import { type Trade, tradeBook } from '../support/tradeBook.ts';

/** What is told of a file of the history. */
function told(file: string, trade: Trade) {
  return stockBook(sourceOf(tradeBook(trade)))
    .problems.filter(({ where }) => where.file === file)
    .map(({ code, message, found, where: { row, column } }) => ({ code, message, found, row, column }));
}

const bought: Trade['purchases'] = [
  ['2026-03-01', 'A-1', 'blank', 10, 20],
  ['2026-03-02', 'A-2', 'blank', 10, 0],
];

describe('what came with an invoice', () => {
  const costs = (rows: string): Trade => ({
    purchases: bought,
    more: { 'purchase_costs.csv': `invoice,what,amount,split_by\n${rows}` },
  });

  it('belongs to goods that were bought with it', () => {
    const [found, ...others] = told('purchase_costs.csv', costs('A-1,freight,5,\nA-3,freight,5,\n'));
    expect(others).toEqual([]);
    expect(found).toEqual({
      code: 'reference-unknown',
      message: 'No goods were bought with the invoice “A-3”.',
      found: 'A-3',
      row: 3,
      column: 'invoice',
    });
  });

  it('cannot be shared out by what the goods cost where they cost nothing', () => {
    expect(told('purchase_costs.csv', costs('A-2,duty,5,value\n'))).toEqual([
      {
        code: 'check-failed',
        message: 'The goods of this invoice cost nothing, so nothing can be shared out by value.',
        found: 'A-2',
        row: 2,
        column: undefined,
      },
    ]);
  });

  it('cannot be shared out by weight where nobody knows what the goods weigh', () => {
    expect(told('purchase_costs.csv', costs('A-1,freight,5,weight\n'))).toEqual([
      {
        code: 'check-failed',
        message: 'Nothing can be shared out by weight: the weight of blank is not known.',
        found: 'weight',
        row: 2,
        column: 'split_by',
      },
    ]);
  });
});

describe('what happened', () => {
  const made: Trade['made'] = [['2026-03-05', 'thing', 10, '', '']];

  it('uses up materials for pieces, and never a piece for a piece', () => {
    const used = (reason: string): Trade => ({
      purchases: bought,
      made,
      used: [['2026-03-06', 'thing', 1, reason, '']],
    });
    expect(told('used.csv', used('made'))).toEqual([
      {
        code: 'not-a-choice',
        message: '“thing” is a product, and only materials go into pieces.',
        found: 'made',
        row: 2,
        column: 'reason',
      },
    ]);
    expect(told('used.csv', used('gift'))).toEqual([]);
  });

  it('names the product that material was used for and nothing was made of', () => {
    const trade: Trade = {
      purchases: bought,
      made,
      used: [
        ['2026-02-10', 'blank', 1, 'made', 'thing'],
        ['2026-02-11', 'blank', 1, 'made', ''],
      ],
    };
    expect(told('used.csv', trade).map(({ message }) => message.split(',')[0])).toEqual([
      'blank was used for pieces of thing',
      'blank was used for pieces',
    ]);
  });

  it('is a sale of some pieces, with what was taken for them, or taken back for what was paid back', () => {
    const sold = (pieces: number, takings: number): string[] =>
      told('sales.csv', {
        purchases: bought,
        made,
        sales: [['2026-03-08', 'shop', 'thing', pieces, takings]],
      }).map(({ message, column, found }) => `${column} ${found}: ${message}`);
    expect(sold(0, 5)).toEqual(['pieces 0: The row is of no pieces.']);
    expect(sold(1, -5)).toEqual(['takings -5: Pieces and takings have opposite signs.']);
    expect(sold(-1, 5)).toEqual(['takings 5: Pieces and takings have opposite signs.']);
    expect(sold(2, 0)).toEqual([]);
    expect(sold(-1, -5)).toEqual([]);
  });
});
