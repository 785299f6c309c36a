import { describe, expect, it } from 'vitest';
import type { Values } from '../../../engine/calc/values.ts';
import { demoBook, demoBooks, pricedBook, priceFiles } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';
import { listOf, listsOf, smallBook, told } from './lists.ts';

describe('a price list', () => {
  it('has families and products in the order of the book, and sizes of one price together', () => {
    expect(told(listOf(smallBook(), 'shop').list)).toEqual([
      'Bands: Band, small + medium: 100.00',
      'Bands: Band, large: 120.00',
      'Tags: Tag, 3 in + 5 in: 50.00',
      'Other pieces: odd, : 60.00',
    ]);
  });

  it('keeps two things apart that only their makers can tell apart', () => {
    const twins = setCells(smallBook(), 'products.csv', { product: 'tag b' }, { size: '3 in' });
    expect(told(listOf(twins, 'shop').list).slice(2, 4)).toEqual([
      'Tags: Tag, 3 in: 50.00',
      'Tags: Tag, 3 in: 50.00',
    ]);
    const described = setCells(smallBook(), 'products.csv', { product: 'tag b' }, { description: 'Red.' });
    expect(
      listOf(described, 'shop').list.families[1]?.products.map(({ description }) => description),
    ).toEqual(['', 'Red.']);
  });

  it('says how the channel stands to tax, what the least order is, and what the maker wants said', () => {
    const book = setCells(
      smallBook(),
      'channels.csv',
      { channel: 'trade' },
      { least_order: '75', list_note: 'By post.' },
    );
    expect(listOf(book, 'shop').list).toMatchObject({
      workshop: 'Sluice Lane Cordworks',
      kind: 'price list',
      channel: 'The shop',
      currency: 'USD',
      tax: { name: 'sales tax', included: true, ratio: 0.25 },
      tradeDiscount: null,
      leastOrder: null,
      terms: '',
      breaksFrom: [],
    });
    // Its key is the maker's own word, and no name of the channel.
    expect(listOf(book, 'trade').list).toMatchObject({
      kind: 'line sheet',
      channel: '',
      tax: { name: 'tax', included: false, ratio: 0.06 },
      tradeDiscount: 0.4,
      leastOrder: 75,
      terms: 'By post.',
    });
  });

  it('gives the measures that sizes are made for, from drawn in to let out', () => {
    const sizes = listOf(demoBook('starter'), 'stall').list.families.flatMap(({ products }) =>
      products.flatMap(({ prices }) => prices.flatMap((price) => price.sizes)),
    );
    const inches = (size: string): (number | null)[][] =>
      sizes
        .filter((each) => each.size === size)
        .map(({ fitsFromMm, fitsToMm }) =>
          [fitsFromMm, fitsToMm].map((mm) => (mm === null ? null : mm / 25.4)),
        );
    expect(inches('18 in')).toEqual([
      [null, null],
      [null, null],
    ]);
    // A wrist and a neck of sizes.csv, and a collar that adjusts by 3 in around 14 1/2 in.
    const close = (one: number, other: number) => [expect.closeTo(one, 9), expect.closeTo(other, 9)];
    expect(inches('medium')).toEqual([close(6.75, 6.75), close(14.5, 14.5), close(13, 16)]);
  });

  it('leaves out what is not for the list, and its price breaks with it', () => {
    const { list } = listOf(smallBook(), 'trade');
    expect(JSON.stringify(list)).not.toMatch(/Not for sale|999|secret/);
    expect(list.breaksFrom).toEqual([6, 12, 48]);
    const nothing = ['band', 'tag a', 'tag b', 'odd'].reduce(
      (book, product) => setCells(book, 'products.csv', { product }, { listed: 'no' }),
      smallBook(),
    );
    expect(listOf(nothing, 'shop').list.families).toEqual([]);
  });
});

describe('a line sheet', () => {
  /**
   * Discounts in a series, each off what the one before it leaves: N = L (1 - d1) (1 - d2). 100 less 40 and 10 per cent
   * is 54 (a stock example of commercial arithmetic, from memory; the formula also in Fundamentals of Business Math,
   * eCampusOntario, open textbook, chapter on discounts, from memory).
   */
  it('takes the trade discount off the list price, and the discount of the quantity off that', () => {
    const sheet = told(listOf(smallBook(), 'trade').list);
    //                                    list   one  from 6, 12, 48
    expect(sheet[0]).toBe('Bands: Band, small + medium + large: 100.00 60.00 60.00 54.00 48.00');
    // 33.33 less 40 % is 19.998, so 20.00 is asked; 10 % less is 18.00. From 48 Tags get 5 %, but 10 % hold already.
    expect(sheet[1]).toBe('Tags: Tag, 3 in: 33.33 20.00 20.00 18.00 18.00');
    expect(sheet[2]).toBe('Tags: Tag, 5 in: 50.00 30.00 30.00 27.00 27.00');
    expect(sheet[3]).toBe('Other pieces: odd, : 200.00 120.00 116.40 108.00 108.00');
    expect(sheet).toHaveLength(4);
  });

  it('rounds a quantity price half away from zero, as the currency has it', () => {
    // 0.55 less 10 % is 0.495; a double holds 0.49500000000000005 or a little less, and people count on 0.50.
    const book = setCells(
      smallBook(),
      'set_prices.csv',
      { product: 'tag b', channel: 'trade' },
      { asking: '0.92' },
    );
    expect(told(listOf(book, 'trade').list)[2]).toBe('Tags: Tag, 5 in: 0.92 0.55 0.55 0.50 0.50');
    const yen = new Map([
      ...smallBook(),
      ['book.yaml', (smallBook().get('book.yaml') ?? '').replace('currency: USD', 'currency: JPY')],
    ]);
    expect(listOf(yen, 'trade').list.families[1]?.products[0]?.prices[0]).toMatchObject({
      listPrice: 33,
      price: 20,
      breakPrices: [20, 18, 18],
    });
  });

  it('never asks more of whoever buys more', () => {
    for (const name of demoBooks) {
      for (const { list } of listsOf(demoBook(name)).values()) {
        for (const { price, breakPrices } of list.families.flatMap(({ products }) =>
          products.flatMap((each) => each.prices),
        )) {
          const all = [price, ...breakPrices];
          expect([...all].sort((one, other) => other - one)).toEqual(all);
        }
      }
    }
  });

  it('has a break for a product with its sizes, for a family in any capitals, and for everything', () => {
    const of = (goal: string): (string | undefined)[] =>
      told(
        listOf(
          smallBook({ 'price_breaks.csv': `channel,from_pieces,discount_percent,for\ntrade,2,50,${goal}\n` }),
          'trade',
        ).list,
      ).map((line) => line.split(' ').at(-1));
    expect(of('BAND')).toEqual(['30.00', '20.00', '30.00', '120.00']);
    expect(of('tags')).toEqual(['60.00', '10.00', '15.00', '120.00']);
    expect(of('Tag B')).toEqual(['60.00', '20.00', '15.00', '120.00']);
    expect(of('Everything')).toEqual(['30.00', '10.00', '15.00', '60.00']);
    // One size of a run, whose sizes then have two prices.
    expect(of('band medium')).toEqual(['60.00', '30.00', '60.00', '20.00', '30.00', '120.00']);
  });

  it('has the prices of the sheets, and each of them once', () => {
    for (const name of demoBooks) {
      const { plan, values } = pricedBook(demoBook(name));
      const rows = (sheet: string): readonly number[] =>
        Array.from({ length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 }, (_, row) => row);
      for (const [channel, { list }] of listsOf(demoBook(name))) {
        const shown = list.families.flatMap(({ products }) =>
          products.flatMap(({ prices }) => prices.flatMap((each) => each.sizes.map(() => each.price))),
        );
        const sold = rows('prices').filter((row) => values.get('prices', 'channel', row) === channel);
        const listed = sold.filter((_, at) => values.get('products', 'listed', at) !== 'no');
        expect([...shown].sort()).toEqual(listed.map((row) => values.number('prices', 'billed', row)).sort());
      }
    }
  });
});

describe('the sheet Quantity prices', () => {
  it.each([
    // At the stall the tax is inside and fees are taken on the gross price; the shops pay 45 % less and no tax.
    { product: 'pull plain', channel: 'stall', from: 3, share: 1, price: 7.2 },
    { product: 'lead short', channel: 'wholesale', from: 48, share: 0.55, price: 24.81 },
  ])('leaves of a price what Prices would leave of it, had it been asked: $product, $channel', (each) => {
    const { product, channel, from, share, price } = each;
    const book = demoBook('starter');
    const rowWith = (values: Values, sheet: string, cells: Readonly<Record<string, unknown>>): number => {
      const rows = pricedBook(book).plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
      const found = Array.from({ length: rows }, (_, row) => row).find((row) =>
        Object.entries(cells).every(([column, value]) => values.get(sheet, column, row) === value),
      );
      if (found === undefined) throw new Error(`no such row on ${sheet}`);
      return found;
    };
    const { values } = pricedBook(book);
    const row = rowWith(values, 'break_prices', { product, channel, from_pieces: from });
    expect(values.number('break_prices', 'price', row)).toBe(price);
    // The same price as an asking price of its own: before the wholesale discount, as many cents as give it back.
    const asking = (price / share).toFixed(2);
    const asked = pricedBook(setCells(book, 'set_prices.csv', { product, channel }, { asking })).values;
    const at = rowWith(asked, 'prices', { product, channel });
    expect(asked.number('prices', 'billed', at)).toBe(price);
    for (const column of ['net', 'fees', 'postage', 'profit', 'margin', 'tax_inside'])
      expect(values.number('break_prices', column, row)).toBeCloseTo(asked.number('prices', column, at), 9);
  });

  it('says where a break goes under the floor, and not where the price of one does already', () => {
    const messages = (percent: string): readonly string[] =>
      priceFiles(
        smallBook({
          'price_breaks.csv': `channel,from_pieces,discount_percent,for\ntrade,12,${percent},tag b\n`,
        }),
      )
        .problems.filter(({ where }) => where.file === 'price_breaks.csv')
        .map(({ message }) => message);
    expect(messages('10')).toEqual([]);
    expect(messages('99')).toEqual([
      expect.stringMatching(
        /^Channel trade, product tag b: from 12 pieces the buyer pays 0\.30 each, which is under the floor of \d/,
      ),
    ]);
    const cheap = setCells(
      smallBook({ 'price_breaks.csv': 'channel,from_pieces,discount_percent,for\ntrade,12,50,tag b\n' }),
      'set_prices.csv',
      { product: 'tag b', channel: 'trade' },
      { asking: '0.10' },
    );
    expect(priceFiles(cheap).problems.map(({ where }) => where.file)).toEqual(['products.csv']);
  });

  it('is not there without price breaks', () => {
    const { plan, problems } = priceFiles(smallBook({ 'price_breaks.csv': '' }));
    expect(plan?.sheets.map(({ id }) => id)).not.toContain('break_prices');
    expect(plan?.sheets.map(({ id }) => id)).not.toContain('price_breaks');
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});
