import { describe, expect, it } from 'vitest';
import type { Settings } from '../../engine/book/settings.ts';
import { fitSamples, type WeaveFit } from '../../engine/samples/fitSamples.ts';
import { writeBack } from '../../engine/samples/writeBack.ts';
import { imperial } from '../support/settings.ts';
import { sampleOf, testBar } from './simulate.ts';

const shipped =
  'weave,name,family,pitch_ratio,core_take_up\nbar,Bar,bar,1.17,1\nbraid,Braid,round braid,,1\n';
const point: Settings = imperial;
const comma: Settings = { ...point, decimal: 'comma' };

const choice = { readingErrorMm: 1.6, chanceOfShort: 0.02, assumedSpreadRatio: 0.04 };

function weavesOf(
  family: 'bar' | 'round braid',
  takeUp: number,
  coreTakeUp: number | null = null,
): WeaveFit[] {
  const needs = family === 'bar' ? ('pitch' as const) : ('angle' as const);
  const weave = { ...testBar, weave: family === 'bar' ? 'bar' : 'braid', family, needs };
  return fitSamples([sampleOf({ weave, takeUp, coreTakeUp })], choice, false).weaves;
}

describe('writeBack', () => {
  it('starts a table with the whole shipped row, in the notation of the book', () => {
    const { text, cells } = writeBack(undefined, shipped, weavesOf('bar', 5), comma);
    expect(text).toMatch(
      /^weave;name;family;pitch_ratio;core_take_up;spread_percent;spread_degrees\nbar;Bar;bar;1,17\d?;1;5,7\d?;\n$/,
    );
    expect(cells.map(({ column, before }) => [column, before])).toEqual([
      ['pitch_ratio', '1,17'],
      ['spread_percent', ''],
    ]);
  });

  it('adds the shipped row to the rows of the book, with headings that it needs', () => {
    const { text } = writeBack(
      'weave,family,pitch_ratio\nmine,bar,1.5\n',
      shipped,
      weavesOf('round braid', 1.25),
      point,
    );
    // 1 / cos 36.87 degrees is 1.25.
    expect(text).toBe(
      'weave,family,pitch_ratio,name,core_take_up,angle,spread_percent\nmine,bar,1.5\nbraid,round braid,,Braid,1,36.87,5.73\n',
    );
  });

  it('changes only the fitted cells of a row that is there', () => {
    const before = 'weave,name,family,pitch_ratio,core_take_up\nBAR,own name,bar,1.3,\n';
    const { text, cells } = writeBack(before, shipped, weavesOf('bar', 5, 1.0204), point);
    expect(text).toMatch(
      /^weave,name,family,pitch_ratio,core_take_up,spread_percent\nBAR,own name,bar,1\.17\d?,1\.02,5\.7\d?\n$/,
    );
    expect(cells.map(({ column, before: was, after }) => [column, was, after.length <= 5])).toEqual([
      ['pitch_ratio', '1.3', true],
      ['spread_percent', '', true],
      ['core_take_up', '', true],
    ]);
  });

  it('writes the spread of single bars and of bars of more layers beside their pitches, with its degrees', () => {
    const takeUps = [4.9, 5, 5.1].map((takeUp, at) => sampleOf({ sample: `piece ${at}`, takeUp }));
    const layered = sampleOf({ sample: 'double', layers: 2, takeUp: 11 });
    const { weaves } = fitSamples([...takeUps, layered], choice, false);
    const { cells } = writeBack('weave,family,pitch_ratio\nbar,bar,1.2\n', shipped, weaves, point);
    const after = Object.fromEntries(cells.map((cell) => [cell.column, cell.after]));
    // 0.1 of 5 is 2 %, and the mean of three is off by a third of its square: 2 % x sqrt(4/3) = 2.31 %.
    expect(after).toMatchObject({ spread_percent: '2.31', spread_degrees: '2' });
    expect(after).not.toHaveProperty('layered_spread_degrees');
    // One sample: the assumed 4 %, twice, and a little of the tape.
    expect(after.layered_spread_percent).toMatch(/^5\.7\d?$/);
  });

  it('marks a spread under one per cent as meant, so that nobody is asked about it', () => {
    const takeUps = [4.998, 5, 5.002].map((takeUp, at) => sampleOf({ sample: `piece ${at}`, takeUp }));
    const { weaves } = fitSamples(takeUps, { ...choice, readingErrorMm: 0.1 }, false);
    const { cells } = writeBack(undefined, shipped, weaves, comma);
    // 0.1 mm in 200 mm, and as much again in each of two readings of 2 m.
    expect(cells.find(({ column }) => column === 'spread_percent')?.after).toMatch(/^0,0[5-9] %$/);
  });
});
