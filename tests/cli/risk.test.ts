import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../engine/chance/normal.ts';
import type { FitReport, RiskLine, RiskReport } from '../../engine/index.ts';
import { askBook, onBook } from '../support/askBook.ts';
import { type BookText, demoBook } from '../support/books.ts';
import { setCells } from '../support/editBook.ts';
import { plainBook } from '../support/plainBook.ts';
import { runCli } from '../support/runCli.ts';

const draws = 40_000;
/** Of sampling errors as large as this one in 15,000 is exceeded by chance; seeds are fixed, so none is. */
const sure = 4;

const withRanges = (book: BookText, ...rows: string[]): BookText =>
  new Map([
    ...book,
    ['ranges.csv', `${['input,shape,low,likely,high,spread_percent', ...rows].join('\n')}\n`],
  ]);

/** Profit of the month: 100 x pieces a month - 500, a sum that no coin rounds. */
const linear = plainBook({
  overhead: 500,
  products: [{ product: 'thing', price: 140, cost: 40, expected: 20 }],
});
const [slope, fixed] = [100, -500];

async function lineOf(book: BookText, ...options: string[]): Promise<RiskLine> {
  const { lines } = await askBook<RiskReport>(
    book,
    'risk',
    ...['--of', "month's profit", '--draws', `${draws}`],
    ...options,
  );
  const [line] = lines;
  if (line === undefined || lines.length !== 1) throw new Error('one result was expected');
  return line;
}

interface Closed {
  readonly row: string;
  readonly mean: number;
  readonly spread: number;
  /** Fourth central moment over the square of the variance: how far the spread itself may be off. */
  readonly kurtosis: number;
  readonly quantile: (chance: number) => number;
  readonly density: (x: number) => number;
}

const [least, likely, greatest] = [12, 18, 30];
const width = greatest - least;
const sigma = Math.sqrt(Math.log1p(0.3 ** 2));
const gauss = (x: number, middle: number, spread: number): number =>
  Math.exp(-(((x - middle) / spread) ** 2) / 2) / spread / Math.sqrt(2 * Math.PI);

const closedForms: readonly [string, Closed][] = [
  [
    'normal',
    {
      row: 'pieces a month,normal,,20,,10',
      mean: 20,
      spread: 2,
      kurtosis: 3,
      quantile: (chance) => 20 + 2 * normalQuantile(chance),
      density: (x) => gauss(x, 20, 2),
    },
  ],
  [
    'uniform',
    {
      row: `pieces a month,uniform,${least},,${greatest},`,
      mean: (least + greatest) / 2,
      spread: width / Math.sqrt(12),
      kurtosis: 1.8,
      quantile: (chance) => least + chance * width,
      density: () => 1 / width,
    },
  ],
  [
    'triangular',
    {
      row: `pieces a month,triangular,${least},${likely},${greatest},`,
      mean: (least + likely + greatest) / 3,
      spread: Math.sqrt(
        (least ** 2 + likely ** 2 + greatest ** 2 - least * likely - least * greatest - likely * greatest) /
          18,
      ),
      kurtosis: 2.4,
      quantile: (chance) =>
        chance < (likely - least) / width
          ? least + Math.sqrt(chance * width * (likely - least))
          : greatest - Math.sqrt((1 - chance) * width * (greatest - likely)),
      density: (x) =>
        x < likely
          ? (2 * (x - least)) / width / (likely - least)
          : (2 * (greatest - x)) / width / (greatest - likely),
    },
  ],
  [
    'lognormal',
    {
      row: 'pieces a month,lognormal,,20,,30',
      mean: 20 * Math.exp(sigma ** 2 / 2),
      spread: 20 * Math.exp(sigma ** 2 / 2) * 0.3,
      kurtosis: Math.exp(4 * sigma ** 2) + 2 * Math.exp(3 * sigma ** 2) + 3 * Math.exp(2 * sigma ** 2) - 3,
      quantile: (chance) => 20 * Math.exp(sigma * normalQuantile(chance)),
      density: (x) => gauss(Math.log(x), Math.log(20), sigma) / x,
    },
  ],
];

describe('a linear result of one input has the distribution of its closed form', () => {
  it.each(closedForms)('%s', async (_, { row, mean, spread, kurtosis, quantile, density }) => {
    const book = withRanges(linear, row);
    const line = await lineOf(book);
    expect(Math.abs(line.mean - (slope * mean + fixed))).toBeLessThan(
      (sure * slope * spread) / Math.sqrt(draws),
    );
    const ofSpread = slope * spread * Math.sqrt((kurtosis - 1) / 4 / draws);
    expect(Math.abs(line.spread - slope * spread)).toBeLessThan(sure * ofSpread);
    for (const [name, chance] of [
      ['p5', 0.05],
      ['p25', 0.25],
      ['p50', 0.5],
      ['p75', 0.75],
      ['p95', 0.95],
    ] as const) {
      const x = quantile(chance);
      const error = (slope * Math.sqrt((chance * (1 - chance)) / draws)) / density(x);
      expect(Math.abs(line.percentiles[name] - (slope * x + fixed)), name).toBeLessThan(sure * error);
    }
    // A goal that the closed form misses once in five times.
    const judged = await lineOf(book, '--miss', (slope * quantile(0.2) + fixed).toFixed(6));
    expect(judged.missedError).toBeCloseTo(Math.sqrt(0.16 / draws), 4);
    expect(Math.abs((judged.missed ?? 0) - 0.2)).toBeLessThan(sure * Math.sqrt(0.16 / draws));
  });
});

describe('several inputs', () => {
  const pair = plainBook({
    products: [
      { product: 'first', price: 140, cost: 40, expected: 30, clasps: 2 },
      { product: 'second', price: 90, cost: 40, expected: 10, clasps: 4 },
    ],
  });
  const month = (rows: readonly string[], book = pair): Promise<RiskLine> =>
    lineOf(withRanges(book, ...rows));
  const off = Math.sqrt(0.5 / draws);

  it('that are independent add in squares, and drive the result by their shares', async () => {
    const [one, other] = [100 * 30 * 0.1, 50 * 10 * 0.3];
    const { spread, drivers } = await month([
      'pieces a month of first at shop,normal,,,,10',
      'pieces a month of second at shop,normal,,,,30',
    ]);
    const whole = Math.hypot(one, other);
    expect(Math.abs(spread / whole - 1)).toBeLessThan(sure * off);
    // Spearman's correlation of a normal pair: 6 / pi x asin(rho / 2).
    const ranked = [one, other].map((each) => (6 / Math.PI) * Math.asin(each / whole / 2));
    const squares = ranked.reduce((sum, each) => sum + each ** 2, 0);
    expect(drivers.map(({ input }) => input)).toEqual([
      'pieces a month of first at shop',
      'pieces a month of second at shop',
    ]);
    for (const [at, driver] of drivers.entries()) {
      expect(Math.abs(driver.correlation - (ranked[at] ?? 0))).toBeLessThan(sure / Math.sqrt(draws));
      expect(Math.abs(driver.share - (ranked[at] ?? 0) ** 2 / squares)).toBeLessThan(0.02);
    }
  });

  it('of two products are one where they are the same cell: the sum of both slopes, squared', async () => {
    const clasped = setCells(pair, 'materials.csv', { material: 'clasp' }, { pack_price: '5' });
    const { spread, drivers } = await month(['price of clasp,normal,,,,20'], clasped);
    // 30 x 2 and 10 x 4 clasps go up and down together by 1 each; were they apart, it would be 72.
    expect(Math.abs(spread / (30 * 2 + 10 * 4) - 1)).toBeLessThan(sure * off + 0.001);
    expect(drivers).toEqual([{ input: 'price of clasp', correlation: expect.closeTo(-1, 4), share: 1 }]);
  });
});

describe('draws', () => {
  const book = withRanges(linear, 'pieces a month,triangular,12,18,30,', 'overhead,normal,,,,5');

  it('are the same for the same seed and others for another', async () => {
    const ask = async (...options: string[]): Promise<string> =>
      (await onBook(book, 'risk', '--draws', '500', '--json', ...options)).out;
    const first = await ask('--seed', '7');
    expect(await ask('--seed', '7')).toBe(first);
    expect(await ask('--seed', '8')).not.toBe(first);
    expect(await ask()).toBe(await ask('--seed', '1'));
  });

  it('never miss what lies under the whole range, and always what lies over it', async () => {
    const narrow = withRanges(linear, 'pieces a month,uniform,19.999,,20.001,');
    expect(await lineOf(narrow, '--miss', '1499')).toMatchObject({ missed: 0, missedError: 3 / draws });
    expect(await lineOf(narrow, '--miss', '1501')).toMatchObject({ missed: 1, missedError: 3 / draws });
    const still = withRanges(linear, 'waste of cord,uniform,1,,2,');
    expect(await lineOf(still, '--miss', '1500')).toMatchObject({ missed: 0, spread: 0, drivers: [] });
  });

  it('stop at the bounds of a column, and say how many did', async () => {
    const far = withRanges(linear, 'pieces a month,normal,,20,,100');
    const { stopped, lines } = await askBook<RiskReport>(
      far,
      'risk',
      '--of',
      "month's profit",
      '--draws',
      `${draws}`,
    );
    // Under -1 standard deviation lie 15.87 % of a normal one (standard normal table).
    expect(Math.abs((stopped[0]?.draws ?? 0) / draws - 0.1587)).toBeLessThan(
      sure * Math.sqrt(0.1335 / draws),
    );
    expect(lines[0]?.percentiles.p5).toBeCloseTo(fixed, 6);
  });

  it('of a weave go by the error that its test pieces leave', async () => {
    const starter = demoBook('starter');
    const { fits } = await askBook<FitReport>(starter, 'fit', '--weave', 'bar');
    const pitch = fits.find(({ parameter }) => parameter === 'pitch_ratio');
    const book = withRanges(starter, 'cord of bar,samples,,,,');
    const { inputs } = await askBook<RiskReport>(
      book,
      'risk',
      '--of',
      'unit cost of fob short',
      '--draws',
      '200',
    );
    expect(inputs[0]).toMatchObject({
      input: 'cord of bar (pitch ratio)',
      shape: {
        form: 'normal',
        middle: pitch?.value,
        below: pitch?.standardError,
        above: pitch?.standardError,
      },
    });
  });
});

describe('sennit risk', () => {
  it('judges each price by the margin that is wanted there', async () => {
    const { lines } = await askBook<RiskReport>(demoBook('starter'), 'risk', '--draws', '200');
    const wanted = (name: string): number | null | undefined =>
      lines.find(({ result }) => result.name === name)?.wanted;
    expect(wanted('margin of fob short at stall')).toBeCloseTo(0.24, 12);
    expect(wanted('margin of camera wide at wholesale')).toBeCloseTo(0.28, 12);
    // 800 a month after 18 % of profit tax, as the book wants it.
    expect(wanted("month's profit")).toBeCloseTo(800 / 0.82, 9);
  });

  it('counts a cost as missed where it is more, and asks what 0.4 of a margin means', async () => {
    const starter = demoBook('starter');
    const of = ['--of', 'unit cost of fob short', '--draws', '400'];
    const low = (await askBook<RiskReport>(starter, 'risk', ...of, '--miss', '0.01')).lines[0];
    const high = (await askBook<RiskReport>(starter, 'risk', ...of, '--miss', '1000')).lines[0];
    expect([low?.worse, low?.missed, high?.missed]).toEqual(['more', 1, 0]);
    const { exitCode, err } = await onBook(starter, 'risk', '--of', 'margin', '--miss', '0.4');
    expect(exitCode).toBe(2);
    expect(err).toMatch(/0\.4 % or 40 %/);
  });

  it.each<[string, ...string[]]>([
    ['starter'],
    ['metric'],
    ['starter', '--of', "month's profit", '--miss', '900'],
  ])('fits 80 columns: %s', async (book, ...options) => {
    const { out } = await runCli(['risk', `templates/books/${book}`, '--draws', '500', ...options]);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    expect(out).not.toContain('…');
  });

  it.each<[string, number, RegExp, string[], ...string[]]>([
    ['a book without ranges', 1, /ranges\.csv: Nothing is uncertain/, []],
    ['too few draws', 2, /100 to 200000/, ['wage,normal,,,,5'], '--draws', '5'],
    ['a seed that is none', 2, /--seed/, ['wage,normal,,,,5'], '--seed', 'x'],
    ['a goal that is none', 2, /“abc”/, ['pieces a month,normal,,,,5'], '--miss', 'abc'],
    ['a range of one figure', 1, /row 2, column high/, ['pieces a month,uniform,20,20,20,']],
    ['a range in disorder', 1, /row 2, column low/, ['pieces a month,triangular,30,20,25,']],
    ['a weave without test pieces', 1, /no test pieces/, ['cord of bar,samples,,,,']],
    ['a share without a sign', 1, /\+30 % or -30 %/, ['overhead,triangular,-5 %,,30 %,']],
    ['an unknown shape', 1, /triangular, uniform, normal/, ['pieces a month,flat,1,2,3,']],
    ['a lognormal under zero', 1, /above zero/, ['pieces a month,lognormal,0,20,30,']],
  ])('refuses %s', async (_, code, message, rows, ...options) => {
    const book = rows.length === 0 ? linear : withRanges(linear, ...rows);
    const { exitCode, err, out } = await onBook(book, 'risk', '--of', "month's profit", ...options);
    expect(err).toMatch(message);
    expect(exitCode).toBe(code);
    expect(out).toBe('');
  });
});
