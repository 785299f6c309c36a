import { describe, expect, it } from 'vitest';
import type { SensitivityReport, SweepTableReport } from '../../engine/index.ts';
import { findInputs, isFault } from '../../engine/whatif/words/findInputs.ts';
import { askBook, onBook } from '../support/askBook.ts';
import { type BookText, demoBook, pricedBook } from '../support/books.ts';
import { alteredByHand, withTickets } from '../support/byHand.ts';
import { plainBook } from '../support/plainBook.ts';
import { runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';
const metric = 'templates/books/metric';
const plain = plainBook({ products: [{ product: 'thing', price: 10, cost: 4, minutes: 30 }] });

function figureOf(book: BookText, { sheet, column, row }: SensitivityReport['result']): number {
  return pricedBook(book).values.number(sheet, column, row);
}

/** Inputs whose cells a maker writes one by one: a row that stands for a run of sizes is several. */
function isWrittenAlone(book: BookText, input: string): boolean {
  const { plan } = pricedBook(book);
  const found = findInputs(input, plan);
  if (isFault(found)) throw new Error(found.message);
  return [...found.cells, ...found.along].every(({ sheet: id, rows }) => {
    const sheet = plan.sheets.find((each) => each.id === id);
    const same = (row: number): number =>
      (sheet?.places ?? []).filter(
        ({ file, row: line }) => file === sheet?.places[row]?.file && line === sheet?.places[row]?.row,
      ).length;
    return sheet?.layout === 'form' || id === 'prices' || rows.every((row) => same(row) === 1);
  });
}

describe('sennit sensitivity', () => {
  it.each([
    ['starter', 'margin of fob short at online', 'follow'],
    ['starter', "month's profit", 'held'],
    ['metric', 'unit cost of lead 120', 'follow'],
    ['metric', 'contribution of lamp pull at web', 'held'],
  ] as const)(
    'says of the book %s and %s what the book says with each figure written into it (%s)',
    async (name, of, prices) => {
      const book = prices === 'held' ? withTickets(demoBook(name)) : demoBook(name);
      const { plan } = pricedBook(book);
      const how = ['--of', of, '--range', '7 %', '--prices', prices];
      const { lines, result, today } = await askBook<SensitivityReport>(
        demoBook(name),
        'sensitivity',
        ...how,
      );
      expect(today).toBeCloseTo(figureOf(book, result), 9);
      // The strongest, and some of all that follow.
      const some = lines.filter(({ input }, at) => (at < 4 || at % 11 === 0) && isWrittenAlone(book, input));
      expect(some.length).toBeGreaterThan(4);
      for (const { input, low, high } of some.slice(0, 9)) {
        for (const [by, tried] of [
          [-0.07, low],
          [0.07, high],
        ] as const) {
          if (tried.result === null) continue;
          const again = alteredByHand(book, plan, input, { how: 'percent', by });
          expect(figureOf(again, result), `${input} ${tried.text}`).toBeCloseTo(tried.result, 8);
        }
      }
    },
  );

  it('goes as far as ranges.csv says, and by a common range where one is given', async () => {
    const own = await askBook<SensitivityReport>(demoBook('starter'), 'sensitivity');
    expect(own.lines.find(({ input }) => input === 'wage')).toMatchObject({
      from: 'ranges.csv',
      today: '22.00',
      low: { text: '19.00' },
      high: { text: '26.00' },
    });
    const common = await askBook<SensitivityReport>(demoBook('starter'), 'sensitivity', '--range', '5');
    expect(common.lines.every(({ from, low }) => from === 'range' && low.text === '-5 %')).toBe(true);
  });

  it('ranks by effect, and tells apart what does not move the result', async () => {
    const { lines, still, today } = await askBook<SensitivityReport>(demoBook('starter'), 'sensitivity');
    const effects = lines.map(({ effect }) => effect);
    expect([...effects].sort((one, other) => other - one)).toEqual(effects);
    for (const { low, high, effect } of lines) {
      const reached = [today, low.result ?? today, high.result ?? today];
      expect(effect).toBeCloseTo(Math.max(...reached) - Math.min(...reached), 9);
      expect(effect).toBeGreaterThan(0);
    }
    expect(lines.filter(({ input }) => still.includes(input))).toEqual([]);
  });

  it('holds today’s asking prices, or lets them go with their cost', async () => {
    const ask = ['--of', 'margin of fob long at online', '--inputs', 'wage', '--range', '10 %'];
    const held = await askBook<SensitivityReport>(demoBook('starter'), 'sensitivity', ...ask);
    const follow = await askBook<SensitivityReport>(
      demoBook('starter'),
      'sensitivity',
      ...ask,
      '--prices',
      'follow',
    );
    expect(held.lines[0]?.low.result).toBeGreaterThan(held.today + 0.02);
    // A price that follows its cost keeps its margin but for its ending.
    expect(Math.abs((follow.lines[0]?.low.result ?? 0) - 0.26)).toBeLessThan(0.06);
    expect(follow.lines[0]?.effect).toBeLessThan(held.lines[0]?.effect ?? 0);
  });

  it.each<[string, string, ...string[]]>([
    ['starter', starter],
    ['starter, all', starter, '--all'],
    ['metric', metric, '--all', '--of', 'margin of wrist 21 cm at shops'],
    ['table', metric, '--of', 'margin at web', '--across', 'wage = 18..30 by 2'],
    ['two-way table', starter, '--across', 'wage = 18..30', '--down', 'cord = -10 %..+20 % by 5 %'],
    [
      'many results',
      starter,
      '--of',
      'margin of fob short',
      '--of',
      "month's profit",
      '--across',
      'wage = 18..30',
    ],
  ])('fits 80 columns without cutting a name: %s', async (_, book, ...options) => {
    const { out, exitCode } = await runCli(['sensitivity', book, ...options], { columns: 80 });
    expect(exitCode).toBe(0);
    const bare = out.replaceAll(new RegExp(`${String.fromCharCode(27)}\\[\\d+m`, 'g'), '');
    for (const line of bare.split('\n'))
      if (!line.startsWith('Next:')) expect(line.length).toBeLessThanOrEqual(80);
    expect(bare).not.toContain('…');
  });

  it('draws a bar either side of today', async () => {
    const { out } = await onBook(
      plain,
      'sensitivity',
      '--of',
      'margin',
      '--inputs',
      'parts',
      'asking prices',
    );
    expect(out).toContain('Margin of thing at shop: 60.0 % today. It moves most with asking prices');
    expect(out).toMatch(/^asking prices +55\.6 % +63\.6 % +▒+│█+ *$/m);
    expect(out).toMatch(/^parts +64\.0 % +56\.0 % +█+│▒+ *$/m);
  });

  it('speaks in sentences, the first dozen or all', async () => {
    const { out } = await runCli(['sensitivity', starter, '--plain']);
    expect(out).toMatch(/^Wage: 1,421\.88 at 19\.00, 769\.86 at 26\.00\.$/m);
    expect(out).not.toMatch(/[▒█│]/);
    const count = (text: string): number =>
      text.split('\n').filter((line) => / at [-\d.]+/.test(line)).length;
    const { out: all } = await runCli(['sensitivity', starter, '--plain', '--all']);
    expect(count(all)).toBeGreaterThan(3 * count(out));
  });

  it('says that nothing moves the result, without a table', async () => {
    const { out, exitCode } = await onBook(plain, 'sensitivity', '--of', 'margin', '--inputs', 'wage');
    expect(exitCode).toBe(0);
    expect(out).toContain('No input moves it.');
    expect(out).not.toContain('Input ');
  });
});

describe('sennit sensitivity --across', () => {
  it('calculates every field as the book does with both figures written into it', async () => {
    const ask = [
      '--of',
      'margin of fob long at online',
      '--across',
      'wage = 18..30 by 6',
      '--down',
      'cord = -10 %..+20 % by 30 %',
    ];
    const report = await askBook<SweepTableReport>(demoBook('starter'), 'sensitivity', ...ask);
    const book = withTickets(demoBook('starter'));
    const { plan } = pricedBook(book);
    expect(report.across.steps).toEqual(['18.00', '24.00', '30.00']);
    expect(report.down?.steps).toEqual(['-10 %', '+20 %']);
    const [margin] = report.results;
    if (margin === undefined) throw new Error('a result was expected');
    for (const [down, by] of [-0.1, 0.2].entries()) {
      for (const [across, value] of [18, 24, 30].entries()) {
        const waged = alteredByHand(book, plan, 'wage', { how: 'value', value });
        const again = alteredByHand(waged, plan, 'cord', { how: 'percent', by });
        expect(figureOf(again, margin.result)).toBeCloseTo(margin.rows[down]?.[across] ?? Number.NaN, 9);
      }
    }
  });

  it('names in its title what all results share', async () => {
    const at = async (...options: string[]): Promise<string> =>
      (await runCli(['sensitivity', metric, '--across', 'wage = 18..30', ...options])).out;
    expect(await at('--of', 'margin at web')).toMatch(/^Wage from 18,00 to 30,00: Margin at web\n/);
    expect(await at('--of', 'margin of lead 120')).toMatch(/\n Wage +market +web +shops\n/);
    expect(await at()).toContain("Month's profit, EUR per month (today 698,53)");
  });

  it('leaves a field blank where the input cannot go', async () => {
    const report = await askBook<SweepTableReport>(
      plain,
      'sensitivity',
      '--of',
      'margin',
      '--across',
      'asking prices = -10..+0 by 5',
    );
    expect(report.results[0]?.rows).toEqual([[null, expect.closeTo(0.2, 12), expect.closeTo(0.6, 12)]]);
  });
});

describe('sennit sensitivity refuses', () => {
  it.each<[string, number, RegExp, ...string[]]>([
    ['a product that is misspelt', 2, /Did you mean “fob short”/, '--of', 'margin of fob shrt at stall'],
    ['a result that is misspelt', 2, /Did you mean “margin”/, '--of', 'margn of fob short at stall'],
    ['several results in a ranking', 2, /means 3 results/, '--of', 'margin of fob short'],
    ['two results in a ranking', 2, /one result at a time/, '--of', 'margin', '--of', 'profit'],
    ['a range of nothing', 2, /“0” is no range/, '--range', '0'],
    ['a range of all', 2, /“100 %” is no range/, '--range', '100 %'],
    ['an input that is misspelt', 2, /Did you mean “minutes”/, '--inputs', 'minuts'],
    ['a second input alone', 2, /--down needs --across/, '--down', 'wage = 1..2'],
    ['ends that are the same', 2, /“18” and “18” are the same/, '--across', 'wage = 18..18'],
    ['ends of two sorts', 2, /of two sorts/, '--across', 'wage = 18..+3 %'],
    ['steps without end', 2, /too many/, '--across', 'wage = 18..30 by 0.01'],
    ['an unknown rule for prices', 2, /no rule for prices/, '--prices', 'fixed'],
  ])('%s', async (_, code, message, ...options) => {
    const { exitCode, err, out } = await runCli(['sensitivity', starter, ...options]);
    expect(exitCode).toBe(code);
    expect(err).toMatch(message);
    expect(out).toBe('');
  });

  it('to guess a result where the book expects no sales, and names one to ask for', async () => {
    const { exitCode, err } = await onBook(plain, 'sensitivity');
    expect(exitCode).toBe(2);
    expect(err).toContain('--of "margin of thing at shop"');
  });

  it('ranges.csv with mistakes, with their rows', async () => {
    const book = new Map([
      ...plain,
      ['ranges.csv', 'input,shape,low,high\nwage,uniform,30,20\nwag,normal,-5 %,+5 %\n'],
    ]);
    const { exitCode, err } = await onBook(book, 'sensitivity', '--of', 'margin');
    expect(exitCode).toBe(1);
    expect(err).toContain('ranges.csv, row 2, column high');
    expect(err).toContain('ranges.csv, row 3, column input');
  });
});
