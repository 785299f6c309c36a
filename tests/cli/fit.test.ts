import { cpSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { historyTables } from '../support/historyTables.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const books = join(import.meta.dirname, '../../templates/books');

/** Works on a copy of a demo book named `book`, with files added or, where undefined, taken away. */
function withBook<T>(
  name: 'starter' | 'metric',
  files: Readonly<Record<string, string | undefined>>,
  work: (fit: (...args: string[]) => ReturnType<typeof runCli>, file: (name: string) => string) => Promise<T>,
): Promise<T> {
  return inFreshFolder(async (folder) => {
    cpSync(join(books, name), join(folder, 'book'), { recursive: true });
    for (const [file, text] of Object.entries(files)) {
      if (text === undefined) rmSync(join(folder, 'book', file));
      else writeFileSync(join(folder, 'book', file), text);
    }
    return work(
      (...args) => runCli(['fit', 'book', ...args], { folder }),
      (file) => readFileSync(join(folder, 'book', file), 'utf8'),
    );
  });
}

const head = 'sample,weave,layers,core_strands,woven_length,cord_in,cord_left';

describe('sennit fit', () => {
  it('shows figure, error, residuals as a drawing, and what the next cut needs', async () => {
    const { exitCode, out } = await runCli(['fit', join(books, 'starter'), '--weave', 'bar']);
    expect(exitCode).toBe(0);
    for (const part of [
      /bar: pitch 1\.\d{3} \+\/- 0\.\d{3} cord diameters, from 5 samples; the book has 1\.170\./,
      /bar 1 {2}\.+\|\.+o\.+\n/,
      /For 1 piece in 50 to run short, cut \d\.\d % more than the fitted amount;/,
      /wrist small +5\.71/,
      /bar: core take-up 1\.010/,
      /Reading error of the tape: 1\.6 mm/,
      /Nothing was written\./,
    ]) {
      expect(out).toMatch(part);
    }
    expect(out).not.toContain('braid 1');
  });

  it('fits in 80 columns', async () => {
    const { out } = await runCli(['fit', join(books, 'starter')]);
    const body = out.split('\n').filter((line) => !/^(Nothing|\+\/-|sluice bar:|bar:|round)/.test(line));
    for (const line of body) expect(line.length).toBeLessThanOrEqual(102);
    for (const line of body.filter((each) => /\d {2,}\d/.test(each)))
      expect(line.length).toBeLessThanOrEqual(80);
  });

  it('draws nothing with --plain', async () => {
    const { out } = await runCli(['fit', join(books, 'starter'), '--plain']);
    expect(out).not.toMatch(/\.\.\.\.|\|/);
    expect(out).toContain('+2.8 %');
  });

  it('gives all figures as JSON, with their units in their names', async () => {
    const { out } = await runCli(['fit', join(books, 'starter'), '--weave', 'round braid 4', '--json']);
    const report = JSON.parse(out);
    expect(report.readingErrorMm).toBeCloseTo(25.4 / 16, 12);
    expect(report.chanceOfShort).toBe(0.02);
    const [fit] = report.fits;
    expect([fit.parameter, fit.unit, fit.bookValue]).toEqual(['angle', 'degrees', 40]);
    // braid 1 used (144 - 31.25) / 4 in on 20 in: 1.409. Of its square, (pi k / c)^2 / 2 with k^2 = 1/2 and c = 3 is the
    // rise over and under, and the rest 1 / cos^2 of the angle (docs/cord/round-braid.md).
    expect(fit.samples[0].usedPerCordMm).toBeCloseTo(28.1875 * 25.4, 6);
    expect(fit.samples[0].valueByCord).toBeCloseTo(
      (Math.acos(1 / Math.sqrt((28.1875 / 20) ** 2 - (Math.PI / 3) ** 2 / 4)) * 180) / Math.PI,
      6,
    );
    expect(fit.products.length).toBeGreaterThan(3);
    expect(report.written).toEqual([]);
  });

  it('draws an SVG with named axes, and does not replace one unasked', async () => {
    await inFreshFolder(async (folder) => {
      const args = ['fit', join(books, 'starter'), '--svg', 'fit.svg'];
      const first = await runCli(args, { folder });
      expect(first.exitCode).toBe(0);
      const svg = readFileSync(join(folder, 'fit.svg'), 'utf8');
      expect(svg).toMatch(/^<svg xmlns=/);
      expect(svg).toContain('Cord taken beyond the fitted amount, %');
      expect(svg).toContain('bar double');
      const again = await runCli(args, { folder });
      expect(again.exitCode).toBe(1);
      expect(again.err).toContain('is there already');
      expect((await runCli([...args, '--replace'], { folder })).exitCode).toBe(0);
    });
  });

  it('says which counts it could not use', async () => {
    const samples = `${head},half_knots\none,bar,,,8 in,9 ft,26 in,43\n`;
    await withBook('starter', { 'samples.csv': samples }, async (run) => {
      const { exitCode, out } = await run();
      expect(exitCode).toBe(0);
      expect(out).toContain('Sample one: 43 half knots are counted, but they say nothing');
    });
  });

  it('leaves samples out when asked, and says so', async () => {
    const { out } = await runCli([
      'fit',
      join(books, 'starter'),
      '--weave',
      'bar',
      '--without',
      'bar 4',
      '--without',
      'BAR 1',
    ]);
    expect(out).toContain('from 3 samples');
    expect(out).toContain('Left out: bar 1, bar 4.');
  });

  it('fits an odd weave of the book that has no pitch yet, which cannot be priced before', async () => {
    const weaves = 'weave,family,over_strands,under_strands\nriver bar,bar,1,1\n';
    const samples = `${head}\none,river bar,,,10 in,100 in,2 in\ntwo,river bar,,,8 in,90 in,11 1/4 in\nthree,river bar,,,9 in,90 in,2 1/2 in\n`;
    const products = 'product,weave,over_cord,woven_length_set\nstrap,river bar,coal cord,8 in\n';
    const only = Object.fromEntries(
      [
        ...['ends.csv', 'parts.csv', 'work.csv', 'set_prices.csv', 'make.csv', 'sales_mix.csv'],
        ...historyTables,
      ].map((file) => [file, undefined]),
    );
    await withBook(
      'starter',
      { ...only, 'weaves.csv': weaves, 'samples.csv': samples, 'products.csv': products },
      async (run, file) => {
        const { exitCode, out } = await run('--write');
        expect(exitCode).toBe(0);
        expect(out).toContain('the book has none yet');
        expect(out).toMatch(/river bar, pitch_ratio: blank -> 1\.\d+/);
        expect(file('weaves.csv')).toMatch(
          /^weave,family,over_strands,under_strands,pitch_ratio,spread_percent,spread_degrees\nriver bar,bar,1,1,1\.\d+,0\.\d+ %,2\n$/,
        );
        expect((await run('--json')).out).toContain('"pitch_ratio"');
      },
    );
  });

  it('reckons what to cut and what it costs by the fitted take-up, where the book has none yet', async () => {
    const weaves = 'weave,family,over_strands,under_strands\nsluice bar,measured,1,1\n';
    await withBook('starter', { 'weaves.csv': weaves }, async (run) => {
      const { out } = await run('--weave', 'sluice bar', '--json');
      const [fit] = JSON.parse(out).fits;
      expect(fit.bookValue).toBeNull();
      for (const each of fit.products) {
        expect(each.extraPerCordMm).toBeCloseTo(fit.extraRatio * fit.value * each.wovenLengthMm, 6);
        expect(each.expectedOffcutCost).toBeGreaterThan(0);
      }
      expect(fit.products.length).toBeGreaterThan(1);
    });
  });
});

describe('sennit fit --write', () => {
  const weaves =
    '\uFEFFweave;"name";family;over_strands;under_strands;pitch_ratio;note of mine\r\n' +
    'my wrap ;"Wrap; mine";wrap;1;0;"1,05"; keep \r\n' +
    '\r\n' +
    'bar;"Bar";bar;1;1;"1,170";theirs\r\n' +
    'last;x;bar;1;1;1,4;\r\n';

  it('changes the fitted cells and leaves every other byte as it was', async () => {
    const samples = 'sample;weave;woven_length;cord_in;cord_left\none;bar;20 cm;250 cm;46,8 cm\n';
    await withBook('metric', { 'weaves.csv': weaves, 'samples.csv': samples }, async (run, file) => {
      const { exitCode, out } = await run('--write');
      expect(exitCode).toBe(0);
      expect(out).toContain('bar, pitch_ratio: 1,170 -> 1,156');
      // One sample: the assumed spread twice and a little of the tape, without degrees of freedom.
      const expected = weaves
        .replace('note of mine', 'note of mine;spread_percent')
        .replace('"1,170";theirs', '"1,156";theirs;5,75');
      expect(file('weaves.csv')).toBe(expected);
    });
  });

  it('writes what the book then goes by: a second fit finds nothing to change', async () => {
    await withBook('starter', {}, async (run, file) => {
      const before = file('weaves.csv');
      expect((await run('--write')).exitCode).toBe(0);
      const once = file('weaves.csv');
      expect(once.split('\n')[0]).toBe(before.split('\n')[0]);
      expect(once).toContain('\nbar,Half-knot bar,bar,1,1,1.162,1.383,,1.01,,2.11,4,5.75,\n');
      expect(once).toContain('sluice bar,Open bar of the workshop,bar,1,1,1.6,,,1,3.617,1.4,2,,\n');
      await run('--write');
      expect(file('weaves.csv')).toBe(once);
    });
  });

  it('makes weaves.csv where there is none, in the notation of the book', async () => {
    const samples = 'sample;weave;woven_length;cord_in;cord_left\none;round braid 8;50 cm;6 m;90 cm\n';
    await withBook('metric', { 'samples.csv': samples }, async (run, file) => {
      expect((await run('--write')).exitCode).toBe(0);
      expect(file('weaves.csv').split('\n')[0]).toContain('weave;name;family');
      expect(file('weaves.csv')).toMatch(
        /\nround braid 8;Round braid of eight;round braid;4;4;2,4;;\d\d(,\d+)?;;2;1;;5,\d+;\n$/,
      );
    });
  });

  it('keeps the character set of the file', async () => {
    const utf16 = Buffer.from(
      '\uFEFFweave\tfamily\tpitch_ratio\tover_strands\tunder_strands\r\nbår\tbar\t1,2\t1\t1\r\n',
      'utf16le',
    );
    await inFreshFolder(async (folder) => {
      cpSync(join(books, 'metric'), join(folder, 'book'), { recursive: true });
      const file = join(folder, 'book', 'weaves.csv');
      writeFileSync(file, utf16);
      writeFileSync(
        join(folder, 'book', 'samples.csv'),
        'sample;weave;woven_length;cord_in;cord_left\none;bår;8 in;9 ft;26 in\n',
      );
      expect((await runCli(['fit', 'book', '--write'], { folder })).err).toBe('');
      const after = readFileSync(file);
      expect(after.subarray(0, 2)).toEqual(Buffer.from([0xff, 0xfe]));
      expect(after.toString('utf16le')).toMatch(/\r\nbår\tbar\t1,1\d+\t1\t1\t5,\d+\r\n$/);
    });
  });

  it('touches nothing when it refuses', async () => {
    const samples = `${head}\nlong,bar,,,8 in,9 ft,104 in\nfine,bar,,,8 in,9 ft,26 in\n`;
    await withBook('starter', { 'samples.csv': samples }, async (run, file) => {
      const before = file('weaves.csv');
      const { exitCode, err, out } = await run('--write', '--svg', 'fit.svg');
      expect(exitCode).toBe(1);
      expect(out).toBe('');
      expect(err).toContain('samples.csv, row 2');
      expect(err).toContain('Nothing was written.');
      expect(file('weaves.csv')).toBe(before);
      expect(existsSync('fit.svg')).toBe(false);
      expect((await run('--without', 'long')).exitCode).toBe(0);
    });
  });

  it('touches nothing where the picture cannot be made', async () => {
    await withBook('starter', {}, async (run, file) => {
      const before = file('weaves.csv');
      expect((await run('--write', '--svg', 'fit.png')).exitCode).toBe(2);
      expect(file('weaves.csv')).toBe(before);
    });
  });
});

describe('sennit fit refuses', () => {
  it.each([
    [['--weave', 'barr'], 2, 'no sample of a weave “barr”', 'Weaves with samples: bar, sluice bar'],
    [['--without', 'bar 9'], 2, 'no sample “bar 9”', 'Samples: bar 1'],
    [
      ['--weave', 'sluice bar', ...[1, 2, 3].flatMap((at) => ['--without', `sluice ${at}`])],
      2,
      'No sample is left',
      'fewer',
    ],
    [['--weave', 'bar', '--take-up'], 1, 'differ in layers or core strands', 'Leave out --take-up'],
    [['--svg', 'fit.pdf'], 2, 'does not end in .svg', 'bar.svg'],
  ])('%j with exit code %d and a way to mend it', async (args, code, message, mend) => {
    const { exitCode, err } = await runCli(['fit', join(books, 'starter'), ...args]);
    expect(exitCode).toBe(code);
    expect(err).toContain(message);
    expect(err).toContain(mend);
  });

  it('a book without samples, and says how to begin', async () => {
    await withBook('metric', { 'samples.csv': undefined }, async (run) => {
      const { exitCode, err } = await run();
      expect(exitCode).toBe(1);
      expect(err).toContain('This book has no samples.');
      expect(err).toContain('docs/samples.md');
    });
  });

  it('a sample that no pitch explains', async () => {
    const samples = `${head}\nstraight,bar,,,8 in,17 in,0\n`;
    await withBook('starter', { 'samples.csv': samples }, async (run) => {
      const { exitCode, err } = await run();
      expect(exitCode).toBe(1);
      expect(err).toContain('Sample straight: no bar takes 1.063');
      expect((await run('--take-up')).exitCode).toBe(0);
    });
  });
});
