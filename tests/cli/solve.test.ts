import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckedAnswer, type SolvedPoint, type SolveReport, solveBook } from '../../engine/index.ts';
import type { FoundResult } from '../../engine/whatif/words/findResults.ts';
import { askBook, onBook } from '../support/askBook.ts';
import { type BookText, demoBook, pricedBook, sourceOf } from '../support/books.ts';
import { alteredByHand, withTickets } from '../support/byHand.ts';
import { plainBook } from '../support/plainBook.ts';
import { runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';
const plain = plainBook({
  overhead: 100,
  products: [{ product: 'thing', price: 10, cost: 4, minutes: 30, expected: 50 }],
});

function figureOf(book: BookText, { sheet, column, row }: FoundResult): number {
  return pricedBook(book).values.number(sheet, column, row);
}

/** Where an answer lies, a stretch or a step by its middle. */
function middleOf(answer: CheckedAnswer | undefined): number {
  if (answer === undefined) return Number.NaN;
  if (answer.how === 'exact') return answer.point.at;
  const [one, other] = answer.how === 'step' ? [answer.atMost, answer.atLeast] : [answer.from, answer.to];
  return (one.at + other.at) / 2;
}

function ask(book: BookText, vary: string, until: string, ...options: string[]): Promise<SolveReport> {
  return askBook<SolveReport>(book, 'solve', '--vary', vary, '--until', until, ...options);
}

describe('an answer, written into the book by hand, gives the result', () => {
  it.each([
    ['starter', 'held', 'wage', 'margin of fob short at stall', '40 %'],
    ['starter', 'held', 'cord', 'margin of belt broad at online', '20 %'],
    ['starter', 'held', 'minutes of fob short', 'margin of fob short at stall', '30 %'],
    ['starter', 'held', 'wage', "month's profit", '0'],
    ['metric', 'held', 'overhead', "month's profit", '500'],
    ['metric', 'follow', 'wage', 'unit cost of lead 120', '20'],
  ] as const)('%s, prices %s: %s until %s = %s', async (name, prices, vary, result, wanted) => {
    const report = await ask(demoBook(name), vary, `${result} = ${wanted}`, '--prices', prices);
    const book = prices === 'held' ? withTickets(demoBook(name)) : demoBook(name);
    const { plan } = pricedBook(book);
    expect(report.resultToday).toBeCloseTo(figureOf(book, report.result), 9);
    expect(report.answers).toHaveLength(1);
    const [answer] = report.answers;
    if (answer === undefined || answer.how === 'between') throw new Error('one figure was expected');
    const written = ({ alteration }: SolvedPoint): number =>
      figureOf(alteredByHand(book, plan, vary, alteration), report.result);
    if (answer.how === 'step') {
      // What is bought is rounded to coins, so there may be a step of a fraction of a coin.
      const [under, over] = [written(answer.atMost), written(answer.atLeast)];
      expect(under).toBeCloseTo(answer.atMost.result, 8);
      expect(over).toBeCloseTo(answer.atLeast.result, 8);
      expect(under).toBeLessThan(answer.atMost.wanted);
      expect(over).toBeGreaterThan(answer.atLeast.wanted);
      expect(over - under).toBeLessThan(0.001);
      return;
    }
    expect(written(answer.point)).toBeCloseTo(answer.point.wanted, 8);
    // The figure that would be written down comes as near as its digits allow, and as near as it says.
    if (answer.rounded === null) return;
    expect(written(answer.rounded)).toBeCloseTo(answer.rounded.result, 8);
  });

  it('both sides of a step, which lie on either side of what is wanted', async () => {
    const until = 'asking price of fob short at online = 12.49';
    const report = await ask(demoBook('starter'), 'wage', until, '--prices', 'follow');
    const book = demoBook('starter');
    const { plan } = pricedBook(book);
    const [answer] = report.answers;
    if (answer?.how !== 'step') throw new Error('a step was expected');
    const at = ({ alteration }: SolvedPoint): number =>
      figureOf(alteredByHand(book, plan, 'wage', alteration), report.result);
    expect([at(answer.atMost), at(answer.atLeast)]).toEqual([
      expect.closeTo(11.95, 9),
      expect.closeTo(12.95, 9),
    ]);
    // A coin of wage further on either side it is still the same step.
    const moved = (by: number): number =>
      figureOf(
        alteredByHand(book, plan, 'wage', { how: 'value', value: answer.atMost.at + by }),
        report.result,
      );
    expect([moved(-0.01), moved(0.01)]).toEqual([expect.closeTo(11.95, 9), expect.closeTo(12.95, 9)]);
  });

  it('both ends of a stretch, and nothing beyond them', async () => {
    const book = demoBook('starter');
    const until = 'asking price of fob short at online = 11.95';
    const report = await ask(book, 'wage', until, '--prices', 'follow');
    const { plan } = pricedBook(book);
    const [answer] = report.answers;
    if (answer?.how !== 'between') throw new Error('a stretch was expected');
    const at = (value: number): number =>
      figureOf(alteredByHand(book, plan, 'wage', { how: 'value', value }), report.result);
    const [from, to] = [answer.from.at, answer.to.at];
    for (const inside of [from, (from + to) / 2, to]) expect(at(inside)).toBeCloseTo(11.95, 9);
    expect(at(from - 1e-6)).toBeLessThan(11.94);
    expect(at(to + 1e-6)).toBeGreaterThan(11.96);
  });
});

describe('sums that can be turned round by hand', () => {
  /** One product without cost of cord, overhead or fees: margin = (price - cost - wage x hours) / price. */
  const bare = (price: number, cost: number, minutes: number): BookText => {
    const book = plainBook({ products: [{ product: 'thing', price, cost, minutes }] });
    return new Map([
      ...book,
      ['book.yaml', (book.get('book.yaml') ?? '').replace('wage_per_hour: 0', 'wage_per_hour: 20')],
    ]);
  };
  const coins = (least: number, most: number) =>
    fc.integer({ min: least, max: most }).map((each) => each / 100);

  it('the wage that a margin pays', () => {
    fc.assert(
      fc.property(
        coins(1000, 9000),
        coins(100, 500),
        fc.integer({ min: 6, max: 60 }),
        fc.integer({ min: 1, max: 40 }),
        (price, cost, minutes, per) => {
          const wage = ((price * (1 - per / 100) - cost) * 60) / minutes;
          const { report } = solveBook(sourceOf(bare(price, cost, minutes)), {
            vary: 'wage',
            until: `margin = ${per} %`,
            to: '2000',
            prices: 'held',
          });
          expect(report?.answers).toHaveLength(1);
          const [answer] = report?.answers ?? [];
          if (answer?.how !== 'exact') throw new Error('one figure was expected');
          expect(Math.abs(answer.point.at - wage)).toBeLessThan(1e-7 * wage);
          expect(Math.abs(answer.checks[0]?.residual ?? Number.NaN)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 25, seed: 3 },
    );
  });

  it('the price at which a product fails its floor, rising or falling', () => {
    fc.assert(
      fc.property(
        coins(1000, 9000),
        coins(100, 500),
        fc.integer({ min: 6, max: 20 }),
        (price, cost, minutes) => {
          const labour = (20 * minutes) / 60;
          // What is bought costs more and more until nothing is left; profit falls with it.
          const falling = solveBook(sourceOf(bare(price, cost, minutes)), {
            vary: 'price of part of thing',
            until: 'profit = 0',
            to: '200',
            prices: 'held',
          }).report?.answers[0];
          expect(Math.abs(middleOf(falling) - (price - labour))).toBeLessThan(0.0051);
          // The ticket rises until something is; tickets are in coins, so it may be a step.
          const rising = solveBook(sourceOf(bare(price, cost, minutes)), {
            vary: 'asking price of thing',
            until: 'profit = 0',
            prices: 'held',
          }).report?.answers[0];
          if (rising === undefined) throw new Error('an answer was expected');
          const least = Math.ceil((cost + labour) * 100 - 1e-7) / 100;
          if (rising.how === 'step') {
            expect(rising.atLeast.result).toBeCloseTo(least - cost - labour, 9);
            expect(rising.atMost.result).toBeCloseTo(least - 0.01 - cost - labour, 9);
            expect(rising.atLeast.at).toBeGreaterThan(rising.atMost.at);
          } else if (rising.how === 'between') {
            const middle = (rising.from.at + rising.to.at) / 2;
            expect(Math.abs(middle - (cost + labour))).toBeLessThan(0.0051);
          } else throw new Error('a step or a stretch was expected');
        },
      ),
      { numRuns: 12, seed: 5 },
    );
  });

  it('two figures, where a result falls and rises again', async () => {
    const humped = new Map([
      ...plain,
      [
        'sheets/humped.yaml',
        [
          'extends: costs',
          'columns:',
          '  - id: humped',
          '    heading: Humped',
          '    kind: number',
          '    formula: (parts - 3) * (parts - 7)',
          '',
        ].join('\n'),
      ],
    ]);
    const report = await ask(humped, 'price of part of thing', 'costs[thing].humped = 0');
    // Half a coin on either side of them is rounded to the same cost.
    expect(report.answers.map(middleOf)).toEqual([expect.closeTo(3, 2), expect.closeTo(7, 2)]);
    const { out } = await onBook(
      humped,
      ...(['solve', '--vary', 'price of part of thing', '--until', 'costs[thing].humped = 0'] as const),
    );
    expect(out).toMatch(/^2 figures of price of part of thing between 0\.00 and 20\.00/);
    // Under its lowest point there is none; it is said how low it comes.
    const none = await ask(humped, 'price of part of thing', 'costs[thing].humped = -5');
    expect(none.answers).toEqual([]);
    expect(none.least?.result).toBeCloseTo(-4, 4);
    expect(none.least?.at).toBeCloseTo(5, 1);
  });

  it('a result that is to become another one', async () => {
    const report = await ask(plain, 'price of part of thing', 'asking price of thing at shop = its floor');
    expect(report.isOther).toBe(true);
    const [answer] = report.answers;
    if (answer?.how === undefined) throw new Error('an answer was expected');
    const floors = answer.checks.map(({ result, wanted }) => [result, wanted]);
    for (const [asking = 0, floor = 0] of floors) expect(Math.abs(asking - floor)).toBeLessThan(0.0101);
  });
});

describe('where there is no answer', () => {
  it('says how far the result comes, and where', async () => {
    const { out, exitCode } = await onBook(plain, 'solve', '--vary', 'parts', '--until', 'margin = 120 %');
    expect(exitCode).toBe(0);
    expect(out).toContain('No figure of parts between -95 % and +400 % makes margin of thing at shop 120 %.');
    expect(out).toContain('(at +400 %)');
  });

  it('says that the result does not depend on the input', async () => {
    const report = await ask(plain, 'wage', 'weight of thing = 3');
    expect(report).toMatchObject({ depends: false, answers: [], least: null });
    const { out } = await onBook(plain, 'solve', '--vary', 'wage', '--until', 'weight of thing = 3');
    expect(out).toMatch(/does not depend on wage/);
  });

  it('looks where it is told to look', async () => {
    const vary = ['solve', '--vary', 'price of part of thing', '--until', 'margin = 50 %'] as const;
    expect((await ask(plain, vary[2], 'margin = 50 %')).answers).toHaveLength(1);
    expect((await ask(plain, vary[2], 'margin = 50 %', '--from', '6', '--to', '9')).answers).toEqual([]);
    expect((await ask(plain, vary[2], 'margin = 50 %', '--to', '+50 %')).to).toBe('6.00');
  });
});

describe('sennit solve', () => {
  it('says the answer, what it is when written down, and what it is today', async () => {
    const { out } = await runCli([
      'solve',
      starter,
      '--vary',
      'wage',
      '--until',
      'margin of fob short at stall = 40',
    ]);
    const [answer, rounded, checked, today] = out.split('\n');
    expect(answer).toBe('With wage 17.851795, margin of fob short at stall is 40 %.');
    expect(rounded).toBe('Rounded to 17.85 it is 40.0 %.');
    expect(checked).toBe('Put into the book and priced anew, it holds.');
    expect(today).toBe('Today wage is 22.00 and margin of fob short at stall 32.4 %.');
  });

  it('tells in few lines what the book has to say then and has not today', async () => {
    const { out } = await runCli(['solve', starter, '--vary', 'minutes', '--until', "month's profit = 0"], {
      columns: 80,
    });
    expect(out).toMatch(/The book then says: Channel wholesale, product fob short: the asking price/);
    expect(out).toMatch(/\d+ more of\s+that sort/);
    expect(out.split('\n').length).toBeLessThan(16);
    const report = await ask(demoBook('starter'), 'minutes', "month's profit = 0");
    const [answer] = report.answers;
    if (answer?.how !== 'exact') throw new Error('one figure was expected');
    const book = withTickets(demoBook('starter'));
    const { plan, values } = pricedBook(book);
    const then = pricedBook(alteredByHand(book, plan, 'minutes', answer.point.alteration)).values;
    const rows = (plan.sheets.find(({ id }) => id === 'prices')?.places ?? []).map((_, row) => row);
    const fresh = rows.filter(
      (row) =>
        then.get('prices', 'floor_check', row) === 'look' &&
        values.get('prices', 'floor_check', row) !== 'look',
    );
    const told = answer.checks[0]?.findings.find(({ message }) => message.includes('under its floor'));
    expect(told?.rows).toBe(fresh.length);
  });

  it('tells two sides of a small step apart', async () => {
    const metric = 'templates/books/metric';
    const until = 'margin of lead 120 at web = 20 %';
    const { out } = await runCli(['solve', metric, '--vary', 'tar line', '--until', until]);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /^With tar line \+210,4\d* %, margin of lead 120 at web is 20 % as near as rounding comes: 20,000\d+ % up to there, 19,999\d+ % above\./,
    );
  });

  it.each<[string, RegExp, string, string, ...string[]]>([
    ['an input that is misspelt', /Did you mean “wage”/, 'wagge', 'margin of fob short at stall = 40'],
    ['a product that is misspelt', /Did you mean “fob short”/, 'wage', 'margin of fob shirt at stall = 40'],
    ['several results', /means 3 results/, 'wage', 'margin of fob short = 40'],
    [
      'a goal without a figure',
      /does not say what the result is to become/,
      'wage',
      'margin of fob short at stall',
    ],
    ['the other notation', /Write 0\.4/, 'wage', 'margin of fob short at stall = 0,4'],
    ['words', /holds words/, 'weave of fob short', 'margin of fob short at stall = 40'],
    [
      'results of two sorts',
      /not counted in the same thing/,
      'wage',
      'margin of fob short at stall = its floor',
    ],
    [
      'bounds in disorder',
      /not below/,
      'wage',
      'margin of fob short at stall = 40',
      '--from',
      '30',
      '--to',
      '20',
    ],
    ['a bound that is none', /“abc”/, 'wage', 'margin of fob short at stall = 40', '--from', 'abc'],
  ])('refuses %s', async (_, message, vary, until, ...options) => {
    const { exitCode, err, out } = await runCli([
      'solve',
      starter,
      '--vary',
      vary,
      '--until',
      until,
      ...options,
    ]);
    expect(exitCode).toBe(2);
    expect(err).toMatch(message);
    expect(out).toBe('');
  });

  it('tells two mistakes at once, and asks for what is missing', async () => {
    const { err } = await runCli(['solve', starter, '--vary', 'wagge', '--until', 'margn = 3']);
    expect(err).toContain('“wagge”');
    expect(err).toContain('“margn”');
    expect((await runCli(['solve', starter, '--vary', 'wage'])).exitCode).toBe(2);
  });
});
