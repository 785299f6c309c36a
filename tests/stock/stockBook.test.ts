import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayText } from '../../engine/book/measures/day.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { type StockBook, type StockQuestion, stockBook } from '../../engine/stockBook.ts';
import { type BookText, demoBook, demoBooks, sourceOf } from '../support/books.ts';
import { tradeBook } from '../support/tradeBook.ts';

function valued(book: BookText, question: StockQuestion = {}): Required<StockBook> {
  const found = stockBook(sourceOf(book), question);
  const errors = found.problems.filter(({ severity }) => severity === 'error');
  if (found.ledger === undefined) throw new Error(errors.map(({ message }) => message).join('\n'));
  expect(errors).toEqual([]);
  return found as Required<StockBook>;
}

const ways: readonly StockQuestion[] = ['average', 'first in first out'].flatMap((method) =>
  ['perpetual', 'periodic'].map((timing) => ({ method, timing })),
);

describe.each(demoBooks)('the demo book %s', (name) => {
  it.each(ways)('foots by every method ($method, $timing)', (way) => {
    const { values, plan, ledger, span } = valued(demoBook(name), way);
    expect(values.get('start', 'sums', 0)).toBe('all well');
    expect([span.from, span.to].map(dayText)).toEqual(['2026-10-01', '2026-10-31']);
    expect(ledger.shortages).toEqual([]);
    const items = plan.sheets.find(({ id }) => id === 'stock_items');
    for (let row = 0; row < (items?.rowCount ?? 0); row += 1)
      expect(values.get('stock_items', 'roll_check', row)).toBe('well');
  });

  it('says the same in both engines', () => {
    const { plan, values } = valued(demoBook(name));
    const reference = evaluate(plan);
    for (const sheet of plan.sheets.filter(({ id }) => id.startsWith('stock_')))
      for (const column of sheet.columns)
        for (let row = 0; row < sheet.rowCount; row += 1) {
          const one = values.get(sheet.id, column.id, row);
          const other = reference.get(sheet.id, column.id, row);
          if (typeof one === 'number') expect(other).toBeCloseTo(one, 9);
          else expect(other).toEqual(one);
        }
  });

  it('closes one span as it opens the next, whatever day divides them', () => {
    for (const way of ways.slice(1, 3)) {
      const all = valued(demoBook(name), { ...way, from: '2026-10-01', to: '2026-10-31' }).values;
      for (const [until, from] of [
        ['2026-10-03', '2026-10-04'],
        ['2026-10-24', '2026-10-25'],
      ] as const) {
        const first = valued(demoBook(name), { ...way, from: '2026-10-01', to: until }).values;
        const second = valued(demoBook(name), { ...way, from, to: '2026-10-31' }).values;
        const of = (values: typeof first, column: string): number => values.number('stock_totals', column, 0);
        expect(of(second, 'opening_value')).toBe(of(first, 'closing_value'));
        expect(of(second, 'closing_value')).toBe(of(all, 'closing_value'));
        expect(of(first, 'cost_of_sales') + of(second, 'cost_of_sales')).toBeCloseTo(
          of(all, 'cost_of_sales'),
          9,
        );
      }
    }
  });
});

describe('what the tables say', () => {
  const blank = (rows: NonNullable<Parameters<typeof tradeBook>[0]['purchases']>, more = {}) =>
    valued(tradeBook({ purchases: rows, more })).ledger.purchases;

  it('takes the rate of the day, or the last one before it, or the usual one', () => {
    const book = tradeBook({
      more: {
        'purchases.csv':
          'date,material,quantity,amount,currency\n2026-03-01,blank,10,10,EUR\n2026-03-05,blank,10,10,EUR\n2026-03-09,blank,10,10,eur\n2026-03-09,blank,10,10,JPY\n2026-03-09,blank,10,10,USD\n',
        'day_rates.csv': 'date,currency,rate\n2026-03-09,EUR,1.3\n2026-03-05,EUR,1.2\n',
        'exchange.csv': 'currency,rate\nEUR,1.1\nJPY,0.0064\n',
      },
    });
    expect(valued(book).ledger.purchases.map(({ netCoins, rateFrom }) => [netCoins, rateFrom])).toEqual([
      [1100, 'exchange.csv'],
      [1200, 'day_rates.csv 2026-03-05'],
      [1300, 'day_rates.csv 2026-03-09'],
      [6, 'exchange.csv'],
      [1000, ''],
    ]);
  });

  it('shares freight and duty out to the coin, by value or by weight, and not over what went back', () => {
    const lines = blank([], {
      'materials.csv':
        'material,sold_by,diameter,pack,pack_price,weight\ncord,length,4,100,0,\nblank,piece,,1,1,10 g\nring,piece,,1,1,20 g\n',
      'purchases.csv':
        'date,invoice,material,quantity,amount\n2026-03-01,A,blank,1,1.00\n2026-03-01,A,blank,1,1.00\n2026-03-01,A,ring,1,1.00\n2026-03-02,A,ring,-1,-1.00\n',
      'purchase_costs.csv':
        'invoice,what,amount,split_by\nA,freight,10.00,value\nA,duty,10.00,weight\nA,other,0.05,\n',
    });
    expect(
      lines.map(({ freightCoins, dutyCoins, otherCoins, landedCoins }) => [
        freightCoins,
        dutyCoins,
        otherCoins,
        landedCoins,
      ]),
    ).toEqual([
      [334, 250, 2, 686],
      [333, 250, 2, 685],
      [333, 500, 1, 934],
      [0, 0, 0, -100],
    ]);
  });

  it('counts tax that is not reclaimed into cost, written or worked out', () => {
    const lines = blank([], {
      'materials.csv':
        'material,sold_by,diameter,pack,pack_price,unreclaimed_tax_percent\ncord,length,4,100,0,\nblank,piece,,1,1,8\nring,piece,,1,1,\n',
      'purchases.csv':
        'date,material,quantity,amount,tax,tax_reclaimed\n2026-03-01,blank,1,100.00,,\n2026-03-01,blank,1,100.00,5.00,\n2026-03-01,blank,1,100.00,5.00,yes\n2026-03-01,ring,1,100.00,5.00,\n2026-03-01,ring,1,100.00,5.00,no\n2026-03-01,ring,1,100.00,,\n',
    });
    expect(lines.map(({ taxCoins, landedCoins }) => [taxCoins, landedCoins])).toEqual([
      [800, 10_800],
      [500, 10_500],
      [500, 10_000],
      [500, 10_000],
      [500, 10_500],
      [0, 10_000],
    ]);
  });

  it('counts packs by what a pack holds', () => {
    const lines = blank([], {
      'purchases.csv': 'date,material,packs,amount\n2026-03-01,cord,2,7.00\n2026-03-02,cord,-1,-3.50\n',
    });
    expect(lines.map(({ quantity }) => quantity.toNumber())).toEqual([200, -100]);
  });

  it.each([
    [
      'both quantity and packs',
      'date,material,quantity,packs,amount\n2026-03-01,blank,2,2,1\n',
      'cell-clash',
    ],
    ['neither', 'date,material,amount\n2026-03-01,blank,1\n', 'cell-missing'],
    ['signs', 'date,material,quantity,amount\n2026-03-01,blank,-2,1\n', 'out-of-range'],
    ['no rate', 'date,material,quantity,amount,currency\n2026-03-01,blank,2,1,GBP\n', 'reference-unknown'],
  ])('tells what is wrong with a purchase: %s', (_, text, code) => {
    const { problems, ledger } = stockBook(sourceOf(tradeBook({ more: { 'purchases.csv': text } })));
    expect(ledger).toBeUndefined();
    expect(
      problems
        .filter(({ severity }) => severity === 'error')
        .map((each) => [each.code, each.where.file, each.where.row]),
    ).toEqual([[code, 'purchases.csv', 2]]);
  });

  it('tells what is lost on goods that went back: freight that nobody pays back', () => {
    const { values } = valued(
      tradeBook({
        purchases: [
          ['2026-03-01', 'A', 'blank', 10, 100],
          ['2026-03-05', 'A', 'blank', -4, -40],
        ],
        more: { 'purchase_costs.csv': 'invoice,what,amount\nA,freight,5.00\n' },
      }),
    );
    const of = (column: string): number => values.number('stock_totals', column, 0);
    expect(['bought_value', 'purchases_value', 'returns_loss', 'closing_value'].map(of)).toEqual([
      63, 65, 2, 63,
    ]);
  });

  it('has no coins where the currency has none', () => {
    const { values } = valued(
      new Map([
        ...tradeBook({
          blankPrice: 100,
          purchases: [['2026-03-01', 'A', 'blank', 3, 1000]],
          made: [['2026-03-05', 'thing', 1, '', '']],
        }),
        [
          'book.yaml',
          'currency: JPY\nwage_per_hour: 0\nbench_hours_per_month: 1\nwanted_margin_percent: 0\n',
        ],
      ]),
    );
    expect(values.number('stock_totals', 'closing_products', 0)).toBe(333);
    expect(values.number('stock_totals', 'closing_materials', 0)).toBe(667);
  });

  it('writes stock down to a value that is given, and calls the first value an opening balance', () => {
    const { values, ledger } = valued(
      tradeBook({
        stocktakes: [
          ['2026-03-01', 'blank', 10, 100],
          ['2026-03-31', 'blank', 8, 60],
        ],
      }),
    );
    expect(
      ledger.moves.filter(({ item }) => item === 'blank').map(({ what, valueCoins }) => [what, valueCoins]),
    ).toEqual([
      ['opening', 10_000],
      ['counted', -2000],
      ['revalued', -2000],
    ]);
    expect(values.number('stock_totals', 'closing_value', 0)).toBe(60);
    expect(values.number('stock_totals', 'corrected_value', 0)).toBe(20);
  });
});

describe('what was taken for pieces', () => {
  const taken = (book: BookText) => {
    const { ledger } = valued(book);
    const of = (material: string): { into: [string, number][]; beyond: [string, number][] } => {
      const moves = ledger.moves.filter(({ item }) => item === material);
      const told = (what: string): [string, number][] =>
        moves.filter((each) => each.what === what).map((each) => [each.partner, -each.quantity.toNumber()]);
      return { into: told('used'), beyond: told('waste') };
    };
    return of;
  };
  const two = (used: string): BookText =>
    new Map([
      ...tradeBook({
        stocktakes: [['2026-01-01', 'blank', 1000, 1000]],
        made: [
          ['2026-03-05', 'thing', 10, '', ''],
          ['2026-03-09', 'other', 10, '', ''],
          ['2026-04-02', 'thing', 10, '', ''],
        ],
      }),
      ['products.csv', 'product,weave,over_cord,finished_length\nthing,bar,cord,1\nother,bar,cord,1\n'],
      ['parts.csv', 'product,material,quantity\nthing,blank,1\nother,blank,3\n'],
      ['work.csv', 'for,step,minutes_per_piece\nthing,make,1\nother,make,1\n'],
      ['used.csv', `date,item,quantity,reason,product\n${used}`],
    ]);

  it('is what they should take where nothing is written', () => {
    expect(taken(two(''))('blank')).toEqual({
      into: [
        ['thing', 10],
        ['other', 30],
        ['thing', 10],
      ],
      beyond: [],
    });
  });

  it('is shared out over the pieces of its month, less as far as it goes, more as waste', () => {
    expect(taken(two('2026-03-31,blank,20,made,\n'))('blank').into).toEqual([
      ['thing', 5],
      ['other', 15],
      ['thing', 10],
    ]);
    const more = taken(two('2026-03-20,blank,30,made,\n2026-03-31,blank,14,made,\n'))('blank');
    expect(more).toEqual({
      into: [
        ['thing', 10],
        ['other', 30],
        ['thing', 10],
      ],
      beyond: [
        ['thing', 1],
        ['other', 3],
      ],
    });
  });

  it('is that of one product where a row names it', () => {
    const { into, beyond } = taken(two('2026-03-31,blank,36,made,other\n2026-03-31,blank,8,made,\n'))(
      'blank',
    );
    expect(into).toEqual([
      ['thing', 8],
      ['other', 30],
      ['thing', 10],
    ]);
    expect(beyond).toEqual([['other', 6]]);
  });

  it('adds up to what is written, however it divides', () => {
    for (const written of [0.1, 7.77, 39.99, 40, 40.01, 123.45]) {
      const { into, beyond } = taken(two(`2026-03-31,blank,${written},made,\n`))('blank');
      const march = [...into.slice(0, 2), ...beyond].reduce((sum, [, quantity]) => sum + quantity, 0);
      expect(march).toBeCloseTo(written, 9);
    }
  });

  it('is waste, and to be looked at, where nothing was made of it', () => {
    const { problems } = stockBook(sourceOf(two('2026-02-10,blank,5,made,\n')));
    expect(problems.find(({ where }) => where.file === 'used.csv')).toMatchObject({
      severity: 'watch',
      where: { row: 2 },
    });
    expect(taken(two('2026-02-10,blank,5,made,\n'))('blank').beyond).toEqual([['', 5]]);
  });
});

it('foots whatever happened', () => {
  const day = fc.integer({ min: 1, max: 28 }).map((each) => `2026-03-${String(each).padStart(2, '0')}`);
  const size = fc.integer({ min: 1, max: 60 });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(day, size, fc.integer({ min: 0, max: 5000 })), { maxLength: 6 }),
      fc.array(fc.tuple(day, size), { minLength: 1, maxLength: 6 }),
      fc.array(fc.tuple(day, size, fc.constantFrom('made', 'waste', 'gift')), { maxLength: 4 }),
      fc.array(
        fc.tuple(
          day,
          fc.integer({ min: -5, max: 60 }).filter((each) => each !== 0),
        ),
        { maxLength: 6 },
      ),
      fc.option(fc.integer({ min: 0, max: 100 })),
      fc.constantFrom(...ways),
      (bought, made, used, sold, count, way) => {
        const book = tradeBook({
          blankPrice: 1.37,
          wastePercent: 4,
          wage: 11.11,
          minutes: 3,
          overhead: 77,
          hours: 13,
          purchases: bought.map(([date, quantity, cents], at) => [
            date,
            `A${at}`,
            'blank',
            quantity,
            cents / 100,
          ]),
          made: made.map(([date, pieces]) => [date, 'thing', pieces, '', '']),
          used: used.map(([date, quantity, reason]) => [date, 'blank', quantity, reason, '']),
          sales: sold.map(([date, pieces]) => [date, 'shop', 'thing', pieces, pieces]),
          stocktakes: count === null ? [] : [['2026-03-15', 'blank', count, '']],
        });
        const { values } = valued(book, { ...way, from: '2026-03-08', to: '2026-03-20' });
        expect(values.get('start', 'sums', 0)).toBe('all well');
      },
    ),
    { numRuns: 30 },
  );
});
