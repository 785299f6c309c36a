import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priceFiles } from '../support/books.ts';

interface Wish {
  readonly cost: number;
  readonly margin?: number;
  readonly tax?: number;
  readonly includesTax?: boolean;
  readonly feePercent?: number;
  readonly takenOn?: string;
  readonly fixed?: number;
  readonly discount?: number;
  readonly asking?: number;
  readonly step?: number;
  readonly ending?: number;
}

/** A book of one product without labour, overhead or woven cost to speak of: its unit cost is its one part. */
function tiny(wish: Wish) {
  const {
    cost,
    margin = 0,
    tax = 0,
    includesTax = false,
    feePercent = 0,
    takenOn = 'gross price',
    fixed = 0,
    discount = 0,
    step = 0.01,
    ending = 0,
    asking,
  } = wish;
  const { values, problems } = priceFiles(
    new Map([
      [
        'book.yaml',
        `currency: USD\nwage_per_hour: 0\nbench_hours_per_month: 1\nwanted_margin_percent: ${margin}\ntax_percent: ${tax}\n`,
      ],
      [
        'materials.csv',
        `material,sold_by,diameter,pack,pack_price\ncord,length,4,100,0\npiece,piece,,1,${cost}\n`,
      ],
      ['products.csv', 'product,weave,over_cord,finished_length\nthing,bar,cord,1\n'],
      ['parts.csv', 'product,material,quantity\nthing,piece,1\n'],
      [
        'channels.csv',
        `channel,prices_include_tax,wholesale_discount_percent,price_step,price_ending\nshop,${includesTax ? 'yes' : 'no'},${discount}%,${step},${ending}\n`,
      ],
      [
        'fees.csv',
        `channel,fee,percent,taken_on,fixed_per_piece\nshop,fee,${feePercent}%,${takenOn},${fixed}\n`,
      ],
      ['set_prices.csv', `product,channel,asking\n${asking === undefined ? '' : `thing,shop,${asking}\n`}`],
    ]),
  );
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return (column: string): number => values?.number('prices', column, 0) ?? Number.NaN;
}

describe('tax inside a price: gross x r / (1 + r)', () => {
  // HM Revenue & Customs (UK), "Calculating VAT for VAT-inclusive and VAT-exclusive prices" (Crown copyright,
  // OGL), and its VAT fractions 1/6, 7/47, 3/23, 1/21; Inland Revenue (New Zealand), GST at 15 %; the
  // Australian Taxation Office's calculator, GST at 10 %.
  it.each([
    ['UK 20 %, fraction 1/6', 20, 120, 20],
    ['UK 17.5 %, fraction 7/47', 17.5, 117.5, 17.5],
    ['UK 15 %, fraction 3/23', 15, 115, 15],
    ['UK 5 %, fraction 1/21', 5, 105, 5],
    ['New Zealand 15 %, 1,725 x 3/23', 15, 1725, 225],
    ['Australia 10 %, 110 / 11', 10, 110, 10],
    ['Australia 10 %, 1,000 gross is 909.09 net', 10, 1000, 90.91],
  ])('%s', (_, tax, gross, inside) => {
    const price = tiny({ cost: 1, tax, includesTax: true, asking: gross });
    expect(price('tax_inside')).toBeCloseTo(inside, 10);
    expect(price('net')).toBeCloseTo(gross - inside, 10);
  });

  it('rounds the tax, and takes the rest as net: 89.91 at 20 % holds 14.985, so 14.99 (derived, see HMRC Notice 700, 17.5)', () => {
    const price = tiny({ cost: 1, tax: 20, includesTax: true, asking: 89.91 });
    expect(price('tax_inside')).toBe(14.99);
    expect(price('net')).toBeCloseTo(74.92, 10);
  });

  it('adds nothing to and takes nothing from a price without tax: HMRC, 100 net', () => {
    const price = tiny({ cost: 1, tax: 20, asking: 100 });
    expect(price('tax_inside')).toBe(0);
    expect(price('net')).toBe(100);
  });
});

describe('margin and markup', () => {
  // Margin = (P - C) / P, markup = (P - C) / C, markup = m / (1 - m): Centennial College Libraries, maths guide.
  it('cost 100, price 125: markup 25 % on cost, margin 20 %', () => {
    const price = tiny({ cost: 100, asking: 125 });
    expect(price('markup')).toBeCloseTo(0.25, 12);
    expect(price('margin')).toBeCloseTo(0.2, 12);
  });

  // OpenStax, Principles of Accounting 2 (2019), 4.8: part costs 42, billed 70 (rates derived: 66.67 % and 40 %).
  it('cost 42, price 70: markup 66.67 %, margin 40 %', () => {
    const price = tiny({ cost: 42, asking: 70 });
    expect(price('markup')).toBeCloseTo(2 / 3, 12);
    expect(price('margin')).toBeCloseTo(0.4, 12);
  });

  // A published exercise (inputs and price; 6A-1): unit cost 25 marked up by 40 % is 35.
  it('cost 25 marked up by 40 % is a price of 35, a margin of 28.57 %', () => {
    const price = tiny({ cost: 25, margin: (100 * 0.4) / 1.4 });
    expect(price('target')).toBeCloseTo(35, 9);
    expect(price('asking')).toBe(35);
    expect(price('markup')).toBeCloseTo(0.4, 12);
  });

  it('each inverts the other, whatever the price', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 100_000 }),
        fc.integer({ min: 1, max: 500_000 }),
        (cents, more) => {
          const price = tiny({ cost: cents / 100, asking: (cents + more) / 100 });
          const margin = price('margin');
          expect(price('markup') / (margin / (1 - margin))).toBeCloseTo(1, 9);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe('floor and target', () => {
  const wishes = fc.record({
    cost: fc.integer({ min: 50, max: 20_000 }).map((cents) => cents / 100),
    margin: fc.integer({ min: 0, max: 45 }),
    tax: fc.integer({ min: 0, max: 25 }),
    includesTax: fc.boolean(),
    feePercent: fc.integer({ min: 0, max: 20 }),
    takenOn: fc.constantFrom('net price', 'gross price', 'net price and postage', 'gross price and postage'),
    fixed: fc.integer({ min: 0, max: 300 }).map((cents) => cents / 100),
    discount: fc.integer({ min: 0, max: 50 }),
  });

  /** Profit at an asking price that is not rounded, from the definition and not from the sheet's closed form. */
  function profit(
    wish: Required<Omit<Wish, 'asking' | 'step' | 'ending' | 'margin'>>,
    asking: number,
  ): { net: number; profit: number } {
    const rate = wish.tax / 100;
    const billed = asking * (1 - wish.discount / 100);
    const net = wish.includesTax ? billed / (1 + rate) : billed;
    const base = wish.takenOn.startsWith('gross') ? net * (1 + rate) : net;
    return { net, profit: net - (base * wish.feePercent) / 100 - wish.fixed - wish.cost };
  }

  it('the floor earns nothing and loses nothing', () => {
    fc.assert(
      fc.property(wishes, (wish) => {
        expect(profit(wish, tiny(wish)('floor')).profit).toBeCloseTo(0, 8);
      }),
      { numRuns: 25 },
    );
  });

  it('the target earns the wanted margin, and the asking price no less', () => {
    fc.assert(
      fc.property(wishes, (wish) => {
        const price = tiny(wish);
        const { net, profit: earned } = profit(wish, price('target'));
        expect(earned / net).toBeCloseTo(wish.margin / 100, 8);
        // Asking goes up to the next coin; tax and discount are then rounded to a coin each.
        expect(price('asking')).toBeGreaterThanOrEqual(price('target') - 1e-9);
        expect(price('asking')).toBeLessThan(price('target') + 0.01 + 1e-9);
        expect(price('profit')).toBeGreaterThan(
          price('net') * (wish.margin / 100) - 0.011 * (1 + wish.feePercent / 100),
        );
      }),
      { numRuns: 25 },
    );
  });

  it('the asking price has its ending, and is the lowest such that reaches the target', () => {
    fc.assert(
      fc.property(
        wishes,
        fc.constantFrom([1, 0.95], [1, 0.9], [0.5, 0], [0.25, 0.2], [5, 4.5]),
        (wish, [step = 1, ending = 0]) => {
          const price = tiny({ ...wish, step, ending });
          const steps = (price('asking') - ending) / step;
          expect(steps).toBeCloseTo(Math.round(steps), 8);
          expect(price('asking')).toBeGreaterThanOrEqual(price('target') - 1e-9);
          // A target below a coin of the ending still asks the ending itself.
          if (steps > 0.5) expect(price('asking') - step).toBeLessThan(price('target') + 0.01);
        },
      ),
      { numRuns: 25 },
    );
  });
});
