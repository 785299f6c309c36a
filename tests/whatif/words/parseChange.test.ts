import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault } from '../../../engine/whatif/words/findInputs.ts';
import { parseChange } from '../../../engine/whatif/words/parseChange.ts';
import { demoBook, pricedBook } from '../../support/books.ts';

const { plan } = pricedBook(
  new Map([
    ...demoBook('starter'),
    ['exchange.csv', 'currency,rate\nEUR,1.09\n'],
    [
      'materials.csv',
      (demoBook('starter').get('materials.csv') ?? '')
        .split('\n')
        .map((line, at) =>
          line === ''
            ? ''
            : `${line}${at === 0 ? ',supplier,currency' : at < 4 ? ',the ropewalk,EUR' : ',,'}`,
        )
        .join('\n'),
    ],
  ]),
);

function read(text: string) {
  const change = parseChange(text, plan);
  if (isFault(change)) throw new Error(change.message);
  return change;
}

const names = (text: string): string[] => {
  const { cells } = read(text);
  return cells.flatMap(({ sheet, column, rows }) => rows.map((row) => `${sheet}.${column} ${row}`));
};

describe('what an input is called', () => {
  it.each([
    ['wage = 24.50', ['rates.wage_per_hour 0']],
    ['slate cord +1', ['materials.pack_price 0']],
    ['materials[slate cord].pack_price +1', ['materials.pack_price 0']],
    ['the ropewalk +3 %', ['materials.pack_price 0', 'materials.pack_price 1', 'materials.pack_price 2']],
    [
      'price of the ropewalk +3 %',
      ['materials.pack_price 0', 'materials.pack_price 1', 'materials.pack_price 2'],
    ],
    ['EUR +3 %', ['exchange.rate 0']],
    ['fees of wholesale +1 points', ['fees.percent 5']],
    ['wholesale fees +1 points', ['fees.percent 5']],
    ['margin = 30', ['rates.wanted_margin_percent 0']],
    ['margin of wholesale = 12', ['channels.wanted_margin_percent 2']],
    ['rent of the loft +45', ['overheads.per_month 0']],
    ['finished length of fob short = 4 1/4 in', ['products.finished_length 0']],
  ])('%s', (text, cells) => {
    expect(names(text)).toEqual(cells);
  });

  it('takes cord for every cord with its packs, and nothing else', () => {
    const { cells } = read('cord +12 %');
    const main = cells.find(({ sheet }) => sheet === 'materials');
    const diameters =
      plan.sheets.find(({ id }) => id === 'materials')?.columns.find(({ id }) => id === 'diameter')?.inputs ??
      [];
    expect(main?.rows).toEqual(diameters.flatMap((each, row) => (each === null ? [] : [row])));
    expect(cells.find(({ sheet }) => sheet === 'packs')?.rows.length).toBe(4);
  });
});

describe('words', () => {
  it('are whole words of a name, in the singular or plural', () => {
    expect(names('locks +3 %')).toEqual(names('cord lock +3 %'));
    expect(isFault(parseChange('barr +3 %', plan))).toBe(true);
  });

  it('that name a weave, a product or a channel ask which of its figures', () => {
    for (const [text, figure] of [
      ['bar +5 %', 'minutes of bar'],
      ['fob short +5 %', 'asking price of fob short'],
      ['stall +5 %', 'fees of stall'],
    ] as const) {
      const fault = parseChange(text, plan);
      expect(isFault(fault) && fault.accepted).toContain(figure);
    }
  });

  it('name a figure of every product of a weave', () => {
    const weaves =
      plan.sheets.find(({ id }) => id === 'products')?.columns.find(({ id }) => id === 'weave')?.inputs ?? [];
    const bars = weaves.flatMap((each, row) => (each === 'bar' ? [`products.layers ${row}`] : []));
    expect(names('layers of bar = 1')).toEqual(bars);
  });
});

describe('the overhead', () => {
  const figures =
    plan.sheets.find(({ id }) => id === 'overheads')?.columns.find(({ id }) => id === 'per_month')?.inputs ??
    [];
  const sum = figures.reduce<number>((total, each) => total + Number(each), 0);

  it('goes up by an amount, or to a figure, all lines together', () => {
    expect(read('overhead +100').alteration).toEqual({ how: 'percent', by: 100 / sum });
    expect(read('overheads = 900').alteration).toEqual({ how: 'percent', by: (900 - sum) / sum });
    expect(read('overhead +10 %').alteration).toEqual({ how: 'percent', by: 0.1 });
  });

  it('goes up line by line where the column is named', () => {
    expect(read('overheads.per_month +100').alteration).toEqual({ how: 'amount', by: 100 });
    expect(read('rent of the loft +100').alteration).toEqual({ how: 'amount', by: 100 });
  });
});

describe('what a change does', () => {
  it.each([
    ['wage +12 %', { how: 'percent', by: 0.12 }],
    ['wage up 12 %', { how: 'percent', by: 0.12 }],
    ['wage down by 5 %', { how: 'percent', by: -0.05 }],
    ['wage −5%', { how: 'percent', by: -0.05 }],
    ['cord 12% dearer', { how: 'percent', by: 0.12 }],
    ['cord 12 % cheaper', { how: 'percent', by: -0.12 }],
    ['wage by 1.50 higher', { how: 'amount', by: 1.5 }],
    ['minutes of bar 0.5 less', { how: 'amount', by: -0.5 }],
    ['fees of online 1 point more', { how: 'amount', by: 0.01 }],
    ['wage - 1.50', { how: 'amount', by: -1.5 }],
    ['wage to 25', { how: 'value', value: 25 }],
    ['tax +2 points', { how: 'amount', by: 0.02 }],
    ['tax = 8 %', { how: 'value', value: 0.08 }],
    ['tax = 8', { how: 'value', value: 0.08 }],
    ['products[fob long].under_cord = MOSS CORD', { how: 'value', value: 'moss cord' }],
    ['channels[stall].prices_include_tax = no', { how: 'value', value: 'no' }],
    ['finished length of fob short +1 cm', { how: 'amount', by: 1 / 2.54 }],
  ])('%s', (text, alteration) => {
    const found = read(text).alteration;
    expect(found.how).toBe(alteration.how);
    const figure = 'by' in found ? found.by : found.value;
    const wanted = 'by' in alteration ? alteration.by : alteration.value;
    if (typeof wanted === 'number') expect(figure).toBeCloseTo(wanted, 12);
    else expect(figure).toBe(wanted);
  });

  it('tells of a bare amount for many figures its unit, and how a per cent is written', () => {
    expect(read('cord +12')).toMatchObject({ effect: '+12.00 USD each', otherwise: 'cord +12 %' });
    expect(read('cord -3')).toMatchObject({ effect: '-3.00 USD each', otherwise: 'cord -3 %' });
    expect(read('minutes of bar +0.5')).toMatchObject({ effect: '+0.5 min each', otherwise: '' });
    // What one figure was and becomes says enough, and so does a share.
    expect(read('wage +2')).toMatchObject({ effect: '+2.00 USD, 22.00 to 24.00 USD', otherwise: '' });
    expect(read('finished length of fob short +1').effect).toBe('+1 in, 4.00 to 5.00 in');
    expect(read('overhead +50').otherwise).toBe('');
    expect(read('cord +12 %')).toMatchObject({ effect: '+12 %', otherwise: '' });
  });

  it('asks of a figure without a sign what it does, in words that can be typed', () => {
    const share = parseChange('cord 12%', plan);
    expect(isFault(share) && share.mend).toBe('Write “cord +12%” or “cord -12%”.');
    const amount = parseChange('wage 24', plan);
    expect(isFault(amount) && amount.mend).toBe(
      'Write “wage = 24”, “wage +24”, “wage -24” or, for a share of it, “wage +24 %”.',
    );
  });

  it.each([
    ['cord+12%', 'no blank before its sign'],
    ['tax +2', 'leaves open'],
    ['wage = 2 more', ''],
    ['wage +2 points', 'no per cent'],
    ['products[fob long].weave +3 %', 'words'],
    ['products[fob long].weave = bat', 'not in weaves'],
    ['wage = -1', ''],
    ['costs.unit_cost +5 %', 'worked out'],
    ['channels[stall].wanted_margin_percent +5 %', 'blank'],
    ['materials[sleet cord].pack_price +1', 'No row'],
    ['nothing at all +1', 'no input'],
  ])('%s is refused: %s', (text, words) => {
    const change = parseChange(text, plan);
    expect(isFault(change) ? change.message : 'read').toContain(words);
    expect(isFault(change)).toBe(true);
  });

  it('reads any text to a change or to a fault, and never throws', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        const change = parseChange(text, plan);
        expect(
          isFault(change) ? change.mend.length + change.accepted.length : change.cells.length,
        ).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});
