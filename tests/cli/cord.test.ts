import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CordReport } from '../../engine/export/answers/cordReport.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const mmPerInch = 25.4;
const starter = join(import.meta.dirname, '../../templates/books/starter');

async function cordJson(...args: string[]): Promise<CordReport> {
  const { exitCode, out } = await runCli(['cord', ...args, '--json']);
  expect(exitCode).toBe(0);
  return JSON.parse(out);
}

describe('sennit cord', () => {
  it('gives a foot of cord per inch for a single two-core bar (common practice, no source)', async () => {
    const { totalMm } = await cordJson(
      '--weave',
      'bar',
      '--layers',
      '1',
      '--core',
      '2',
      '--length',
      '7 in',
      '--diameter',
      '4 mm',
    );
    const rule = 7 * 12 * mmPerInch;
    expect(Math.abs(totalMm - rule) / rule).toBeLessThan(0.05);
  });

  it('gives two feet of cord per inch for a double two-core bar (common practice, no source)', async () => {
    const { totalMm } = await cordJson(
      '--weave',
      'bar',
      '--layers',
      '2',
      '--core',
      '2',
      '--length',
      '7 in',
      '--diameter',
      '4 mm',
    );
    const rule = 7 * 24 * mmPerInch;
    expect(Math.abs(totalMm - rule) / rule).toBeLessThan(0.05);
  });

  it('cuts each colour by its role, not by halves', async () => {
    const { colours, cuts } = await cordJson('--length', '8 in', '--colours', 'over=red, under=black');
    expect(cuts.map((cut) => cut.role)).toEqual(['core', 'over', 'under']);
    const red = colours.find((each) => each.colour === 'red');
    const black = colours.find((each) => each.colour === 'black');
    // Red is core and over, black only under.
    expect(red?.cutMm).toBeCloseTo((cuts[0]?.cutMm ?? 0) + (cuts[1]?.cutMm ?? 0), 6);
    expect(black?.cutMm).toBeCloseTo(cuts[2]?.cutMm ?? 0, 6);
  });

  it('names colours that it cuts nothing of, and the working of what lies on the face', async () => {
    const wrap = await runCli([
      'cord',
      '--length',
      '7 in',
      '--weave',
      'wrap',
      '--colours',
      'over=red, under=black',
    ]);
    expect(wrap.out).toContain('Nothing is cut of black: this weave has no under cord.');
    expect(wrap.out).not.toContain('0.00 ft');
    const bar = await runCli(['cord', '--length', '7 in', '--colours', 'over=red, stripe=blue, band=gold']);
    expect(bar.out.replace(/\s+/g, ' ')).toMatch(
      /The stripe climbs .+: 1\.315\. A band crosses .+: 2\.968\./,
    );
  });

  it('goes by a take-up that is given, also for a weave that has nothing else, and asks for its thickness', async () => {
    await inFreshFolder(async (folder) => {
      writeFileSync(join(folder, 'book.yaml'), 'currency: USD\n');
      writeFileSync(join(folder, 'weaves.csv'), 'weave,family,over_strands\nmuddle,measured,3\n');
      const of = (...more: string[]) =>
        runCli(['cord', '--book', '.', '--weave', 'muddle', ...more], { folder });
      const unknown = await of('--length', '7 in');
      expect(unknown.exitCode).toBe(2);
      expect(unknown.err).toMatch(/^This piece takes no cord: .+ give --take-up/s);
      expect(unknown.err).not.toContain('bench minutes');
      const closed = await of('--measure', '7 in', '--take-up', '4.2');
      expect([closed.exitCode, closed.err]).toEqual([0, expect.stringContaining('write --thickness')]);
      const thick = await of('--measure', '7 in', '--take-up', '4.2', '--thickness', '8 mm', '--json');
      expect(thick.err).toBe('');
      expect((JSON.parse(thick.out) as CordReport).wovenLengthMm).toBeCloseTo(7 * mmPerInch + 8 * Math.PI, 6);
    });
  });

  it('reads the spread of a named book as the per cent that it is', async () => {
    const { spreadRatio, spreadFrom } = await cordJson(
      '--length',
      '7 in',
      '--weave',
      'sluice bar',
      '--book',
      starter,
    );
    expect([spreadRatio, spreadFrom]).toEqual([0.014, 'samples']);
  });

  it('shows every term of the working', async () => {
    const { out } = await runCli(['cord', '--length', '7 in', '--layers', '2', '--hitches', '2']);
    for (const term of [
      'Take-up',
      'Woven',
      'Hitches',
      'Spare',
      'Trim',
      'layer 1: 4.316 + layer 2: 6.533 = 10.849',
      '1.375 cord diameters',
    ]) {
      expect(out).toContain(term);
    }
  });

  it('closes round a measure: flat length is measure, ease and pi times the thickness, less hardware', async () => {
    const { out } = await runCli([
      'cord',
      '--measure',
      '6 1/2 in',
      '--ease',
      '1/2 in',
      '--hardware',
      '1 1/4 in',
    ]);
    expect(out).toContain('It closes round 6.50 in with 0.50 in of ease; flat it is 7.96 in long');
    expect(out).toContain('6.71 in of bar');
    const json = await cordJson('--measure', '20 cm');
    expect(json.closing?.finishedMm).toBeCloseTo(200 + Math.PI * 7.8, 9);
    expect(json.wovenLengthMm).toBeCloseTo(200 + Math.PI * 7.8, 9);
    expect((await cordJson('--length', '20 cm')).closing).toBeNull();
  });

  it('ties an even number of half knots, and none where there are none', async () => {
    // 20 half knots in 94 mm of 4 mm cord: the reading of docs/cord.md.
    expect((await cordJson('--length', '94 mm')).halfKnots).toEqual({
      count: 20,
      knottedMm: expect.closeTo(93.6, 9),
    });
    expect((await cordJson('--length', '94 mm', '--weave', 'wrap')).halfKnots).toBeNull();
  });

  it('shows a measured take-up beside the formula', async () => {
    const { out } = await runCli(['cord', '--length', '7 in', '--take-up', '5.2']);
    expect(out).toContain('5.021');
    expect(out).toContain('Used instead: 5.200, measured.');
  });

  it.each([
    [['--weave', 'barr', '--length', '7 in'], '--weave: “barr” is not in weaves.', 'Did you mean “bar”?'],
    [['--length', '7'], '--length “7” is not a length with a unit.', '7 1/2 in'],
    [[], 'Neither --length nor --measure is given.', '--measure "6 1/2 in"'],
    [['--length', '7 in', '--measure', '7 in'], 'Both --length and --measure are given.', '--length "7 in"'],
    [['--length', '7 in', '--ease', '1 in'], '--ease goes with --measure', 'instead of --length'],
    [['--measure', '6.5'], '--measure “6.5” is not a length with a unit.', '18 cm'],
    [['--measure', '18 cm', '--ease', '-1 cm'], '--ease: ease cannot be -1 cm.', '0 or more'],
    [['--measure', '2 in', '--hardware', '5 in'], 'nothing is left to weave', 'smaller --hardware'],
    [['--length', '7 in', '--layers', '9'], '--layers: layers cannot be 9', '1 or more and 6 or less'],
    [['--length', '7 in', '--colours', 'lid=red'], 'cannot be read at “lid=red”', 'core, over, under'],
    [['--length', '7 in', '--core', '2.5'], '--core: “2.5” is not a whole number.', 'whole number'],
    [['--length', '7 in', '--diameter', 'thick'], '--diameter: “thick” is not a length.', 'mm'],
  ])('refuses %j with exit code 2 and a way to mend it', async (args, message, mend) => {
    const { exitCode, err, out } = await runCli(['cord', ...args]);
    expect(exitCode).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
    expect(err).toContain(mend);
  });

  it('reports several mistakes together', async () => {
    const { err } = await runCli(['cord', '--length', '7 in', '--weave', 'barr', '--layers', '9']);
    expect(err).toContain('--weave');
    expect(err).toContain('--layers');
  });

  it('takes a colour as it is called, with a sign in its name', async () => {
    const { colours } = await cordJson('--length', '7 in', '--colours', 'over=a=b');
    expect(colours.map(({ colour }) => colour)).toEqual(['a=b']);
  });

  it('takes one colour in two spellings for one', async () => {
    const { colours } = await cordJson('--length', '7 in', '--colours', 'over=red, core=RED');
    expect(colours.map(({ colour }) => colour)).toEqual(['red']);
  });
});
