import { describe, expect, it } from 'vitest';
import { runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';

interface State {
  readonly unitCost: number;
  readonly asking: number;
  readonly margin: number;
  readonly profit: number;
  readonly net: number;
  readonly underFloor: boolean;
}
interface Report {
  readonly scenarios: readonly {
    readonly name: string;
    readonly changes: readonly { text: string; reads: string; cells: number }[];
    readonly prices: readonly {
      product: string;
      channel: string;
      setByHand: boolean;
      today: State;
      held: State;
      kept: State | null;
    }[];
  }[];
}

async function ask(...args: string[]): Promise<Report> {
  const { exitCode, out } = await runCli(['whatif', starter, ...args, '--json']);
  expect(exitCode).toBe(0);
  return JSON.parse(out) as Report;
}

describe('sennit whatif', () => {
  it('answers "cord up, buckles up, keep my margins: what goes on the price list?" in one command', async () => {
    const { exitCode, out } = await runCli(['whatif', starter, 'cord +12 %', 'buckles +5 %']);
    expect(exitCode).toBe(0);
    expect(out).toMatch(/\d+ of 96 asking prices change to keep the margins/);
    expect(out).toContain('Pack price of side buckle, small buckle, belt buckle: +5 %');
    expect(out).toMatch(/fob short +5\.44 +5\.48 +9\.50 +10\.00\^/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('takes the asking prices that are asked for, with those that follow their cost from today’s', async () => {
    const price = async (change: string, product: string) =>
      (await ask(change)).scenarios[0]?.prices.find(
        (each) => each.product === product && each.channel === 'stall',
      );
    const cheap = await price('asking price of fob short at stall = 7', 'fob short');
    expect([cheap?.today.asking, cheap?.held.asking, cheap?.kept?.asking]).toEqual([9.5, 7, 7]);
    expect(cheap?.held.margin).toBeLessThan(cheap?.today.margin ?? 0);
    const byHand = await price('asking price of lanyard eight at stall = 20', 'lanyard eight');
    expect([byHand?.held.asking, byHand?.kept?.asking]).toEqual([20, 20]);
    const { scenarios } = await ask('asking prices +10 %');
    for (const { today, held, kept } of scenarios[0]?.prices ?? []) {
      expect(Math.abs(held.asking - today.asking * 1.1)).toBeLessThan(0.00501);
      expect(kept?.asking).toBe(held.asking);
    }
  });

  it('names what begins later than the day that is asked for', async () => {
    const { out } = await runCli([
      'whatif',
      starter,
      'wage = 27 from 2027-03',
      'cord +5 %',
      '--on',
      '2027-02',
    ]);
    expect(out).toMatch(/left out, as it begins later: Wage: 22\.00 to 27\.00 USD, from 2027-03/);
    expect(out).toContain('fob short');
    const later = await runCli(['whatif', starter, 'wage = 27 from 2027-03', '--on', '2027-03']);
    expect(later.out).not.toContain('left out');
  });

  it.each([
    ['wage = 27 from March', /“March” is no month or day.*2027-03/s],
    ['scenario new wage', /--scenario "new wage"/],
    ['wage +10%, cord +5%', /quotation marks of its own/],
    ['bar +5 %', /minutes of bar/],
  ])('tells how to say %s', async (change, told) => {
    const { err, exitCode } = await runCli(['whatif', starter, change]);
    expect(exitCode).toBe(2);
    expect(err).toMatch(told);
  });

  it('marks a price that keeps its margin and loses money all the same', async () => {
    const { out } = await runCli(['whatif', starter, 'cord +12 %', '--channel', 'stall']);
    expect(out).toMatch(/lanyard e… .*28\.50!/);
    expect(out).toMatch(/prices? that keeps? (its|their) margins? (is|are) under the floor too/);
  });

  it('keeps the wanted margin where the price follows, and today’s where it is set by hand', async () => {
    const [scenario] = (await ask('cord +12 %', 'wage +3.00')).scenarios;
    for (const { product, channel, setByHand, today, held, kept } of scenario?.prices ?? []) {
      expect(held.asking, product).toBe(today.asking);
      expect(held.margin, product).toBeLessThan(today.margin);
      expect(kept?.asking, `${product} ${channel}`).toBeGreaterThanOrEqual(today.asking - 1e-9);
      // Up to one coin of profit, as rounding has it.
      if (setByHand)
        expect((kept?.margin ?? 0) - (today.profit - 0.011) / today.net).toBeGreaterThanOrEqual(-1e-9);
    }
  });

  it('lays scenarios side by side, one upon the other, and leaves out what begins later', async () => {
    const both = await ask('--scenario', 'dearer cord', '--scenario', 'dearer cord + new wage');
    expect(both.scenarios.map(({ name }) => name)).toEqual(['dearer cord', 'dearer cord + new wage']);
    expect(both.scenarios.map(({ changes }) => changes.length)).toEqual([2, 3]);
    const early = await ask('--scenario', 'hard year', '--on', '2027-02');
    expect(early.scenarios[0]?.changes.map(({ text }) => text)).toEqual([
      'wage = 24.50',
      'fees[online, share of the shop site].percent = 7.5',
    ]);
  });

  it('takes all scenarios of the book where none is named', async () => {
    const { scenarios } = await ask();
    expect(scenarios.map(({ name }) => name)).toEqual([
      'dearer cord',
      'new wage',
      'site raises its fee',
      'hard year',
    ]);
  });

  it.each([[['cord', '+12', '%']], [['“cord', '+12', '%”']]])(
    'takes %j for one change without its quotation marks',
    async (words) => {
      const { exitCode, err } = await runCli(['whatif', starter, ...words]);
      expect(exitCode).toBe(2);
      expect(err).toContain('1 error.');
      expect(err).toContain('“cord +12 %” came as 3 words, as it stands in no straight quotation marks.');
      expect(err).toContain('Write "cord +12 %".');
    },
  );

  it('tells everything that is wrong with the question at once, with exit code 2', async () => {
    const { exitCode, err } = await runCli([
      'whatif',
      starter,
      'chord +12 %',
      'wage',
      '--scenario',
      'dear cord',
    ]);
    expect(exitCode).toBe(2);
    expect(err).toContain('“chord” is no input of this book');
    expect(err).toContain('“wage” does not say what happens');
    expect(err).toContain('There is no scenario “dear cord”');
  });

  it('refuses what leads out of bounds', async () => {
    const { exitCode, err } = await runCli(['whatif', starter, 'wage -30']);
    expect(exitCode).toBe(2);
    expect(err).toContain('would make Wage');
    expect(err).toContain('0 or more');
  });

  it('speaks in sentences for screen readers', async () => {
    const { out } = await runCli(['whatif', starter, 'cord +12 %', '--plain', '--channel', 'stall']);
    expect(out).toMatch(/fob long at stall: unit cost 6\.15, then 6\.\d\d; asks 9\.50 today/);
  });
});
