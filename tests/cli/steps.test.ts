import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Io } from '../../cli/io.ts';
import { stepsOf, wiping } from '../../cli/steps.ts';
import { readSheetFiles, type Source } from '../../engine/index.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';

function bookOf(letters: number): Source {
  return {
    book: new Map([['products.csv', 'x'.repeat(letters)]]),
    sheets: readSheetFiles(new Map()),
    tables: new Map(),
  };
}

/** A terminal that keeps in order what was shown on it, and a clock that the test sets. */
function terminal(): { io: Io; seen: string[]; clock: { ms: number } } {
  const seen: string[] = [];
  const clock = { ms: 0 };
  const io: Io = {
    out: (text) => seen.push(`out ${text}`),
    err: (text) => seen.push(`err ${text}`),
    progress: (text) => seen.push(`progress ${text}`),
    env: {},
    now: () => new Date(clock.ms),
    folder: '.',
  };
  return { io, seen, clock };
}

describe('stepsOf', () => {
  it('says nothing of a small book until a second has gone by', () => {
    const { io, seen, clock } = terminal();
    const step = stepsOf(io, bookOf(10), {});
    step('One');
    clock.ms = 999;
    step('Two');
    clock.ms = 1000;
    step('Three');
    expect(seen).toEqual(['progress Three …']);
  });

  it('tells from the first step on where the book is large or the work is long', () => {
    const { io, seen } = terminal();
    stepsOf(io, bookOf(100_000), {})('Large');
    stepsOf(io, bookOf(10), {}, true)('Long');
    expect(seen).toEqual(['progress Large …', 'progress Long …']);
  });

  it('says nothing with --json or --plain, or where there is no terminal', () => {
    const { io, seen } = terminal();
    const { progress: _, ...piped } = io;
    stepsOf(io, bookOf(100_000), { json: true })('One');
    stepsOf(io, bookOf(100_000), { plain: true })('Two');
    stepsOf(piped, bookOf(100_000), {})('Three');
    expect(seen).toEqual([]);
  });
});

describe('wiping', () => {
  it('wipes what was told before anything else is printed, once', () => {
    const { io, seen } = terminal();
    const told = wiping(io);
    told.io.progress?.('Working');
    told.io.out('done');
    told.io.err('and a word');
    told.wipe();
    expect(seen).toEqual(['progress Working', 'progress ', 'out done', 'err and a word']);
  });

  it('wipes at the end where nothing was printed', () => {
    const { io, seen } = terminal();
    const told = wiping(io);
    told.io.progress?.('Working');
    told.wipe();
    expect(seen).toEqual(['progress Working', 'progress ']);
  });
});

describe('the commands', () => {
  /** A clock that gains two seconds each time it is read. */
  function slow(): { told: string[]; io: Partial<Io> } {
    const told: string[] = [];
    let ms = Date.parse('2026-11-25T12:00:00Z');
    return {
      told,
      io: {
        progress: (text) => told.push(text),
        now: () => {
          ms += 2000;
          return new Date(ms);
        },
      },
    };
  }

  it('tell the steps of writing a workbook, and of taking it in', () =>
    inFreshFolder(async (folder) => {
      const writing = slow();
      const book = join(process.cwd(), starter);
      const args = ['workbook', book, '--no-batch', '--out', 'a.xlsx'];
      expect((await runCli(args, { folder, ...writing.io })).exitCode).toBe(0);
      expect(writing.told.slice(0, 2)).toEqual([
        'Pricing the book …',
        'Calculating the book once more with the reference engine …',
      ]);
      expect(writing.told[2]).toMatch(/^Writing \d+ sheets …$/);
      expect(writing.told.slice(3)).toEqual(['']);
      const taking = slow();
      await runCli(['takein', 'a.xlsx', book, '--dry-run'], { folder, ...taking.io });
      expect(taking.told).toEqual(['Reading a.xlsx and comparing it with the book …', '']);
    }));

  it('tell of draws, and wipe it where the run is refused', async () => {
    const drawing = slow();
    await runCli(['risk', starter, '--draws', '1000'], drawing.io);
    expect(drawing.told).toEqual(['Drawing 1000 times …', '']);
    await inFreshFolder(async (folder) => {
      writeFileSync(join(folder, 'a.xlsx'), 'no workbook');
      const refused = slow();
      const book = join(process.cwd(), starter);
      await runCli(['takein', 'a.xlsx', book, '--dry-run'], { folder, ...refused.io });
      expect(refused.told.at(-1)).toBe('');
    });
  });

  const others: [string, readonly string[], readonly string[]][] = [
    ['price', [], ['Pricing the book …']],
    ['check', [], ['Pricing the book …', 'Going through stock and closed months …']],
    ['breakeven', [], ['Pricing the book …']],
    ['mix', [], ['Pricing the book …', 'Looking for the best mix …']],
    ['fit', [], ['Pricing the book and fitting its weaves …']],
    ['whatif', ['cord +12 %'], ['Pricing the book as it is and as it would be …']],
    ['sensitivity', [], ['Pricing the book with each input lower and higher …']],
    ['sensitivity', ['--across', 'wage = 18..20'], ['Pricing the book along the table …']],
    ['solve', ['--vary', 'wage', '--until', 'month’s profit = 800'], ['Looking for the answer along wage …']],
    ['stock', [], ['Pricing the book and valuing its stock …']],
    ['variance', [], ['Pricing the book and valuing its stock …']],
    ['cards', ['lead long'], ['Pricing the book …', 'Working out the cards …', 'Drawing 1 card …']],
    ['pricelist', ['--channel', 'stall'], ['Pricing the book …', 'Writing starter-prices-stall.html …']],
  ];

  it.each(others)('%s %j tells its steps on a slow machine', (command, more, steps) =>
    inFreshFolder(async (folder) => {
      const { told, io } = slow();
      const book = join(process.cwd(), starter);
      expect((await runCli([command, book, ...more], { folder, ...io })).exitCode).toBe(0);
      expect(told).toEqual([...steps, '']);
    }),
  );

  it('a report tells its steps on a fast machine too, as it is never done within a second', () =>
    inFreshFolder(async (folder) => {
      const told: string[] = [];
      const book = join(process.cwd(), starter);
      await runCli(['report', book], { folder, progress: (text) => told.push(text) });
      expect(told).toEqual(['Pricing the book, its scenarios and what moves it …', 'Drawing the page …', '']);
    }));

  it.each(['--json', '--plain'])('a search for a cutting plan tells nothing with %s', async (option) => {
    const { told, io } = slow();
    expect((await runCli(['cut', starter, 'lead long=30', option], io)).exitCode).toBe(0);
    expect(told).toEqual([]);
  });
});
