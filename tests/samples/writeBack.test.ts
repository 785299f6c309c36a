import { describe, expect, it } from 'vitest';
import type { Settings } from '../../engine/book/settings.ts';
import { fitSamples, type WeaveFit } from '../../engine/samples/fitSamples.ts';
import { writeBack } from '../../engine/samples/writeBack.ts';
import { sampleOf, testBar } from './simulate.ts';

const shipped =
  'weave,name,family,pitch_ratio,core_take_up\nbar,Bar,bar,1.17,1\nbraid,Braid,round braid,,1\n';
const point: Settings = {
  workshop: '',
  currency: 'USD',
  currencyDigits: 2,
  decimal: 'point',
  lengthUnit: 'in',
  cordUnit: 'ft',
};
const comma: Settings = { ...point, decimal: 'comma' };

function weavesOf(
  family: 'bar' | 'round braid',
  takeUp: number,
  coreTakeUp: number | null = null,
): WeaveFit[] {
  const needs = family === 'bar' ? ('pitch' as const) : ('angle' as const);
  const weave = { ...testBar, weave: family === 'bar' ? 'bar' : 'braid', family, needs };
  return fitSamples(
    [sampleOf({ weave, takeUp, coreTakeUp })],
    { readingErrorMm: 1.6, chanceOfShort: 0.02 },
    false,
  ).weaves;
}

describe('writeBack', () => {
  it('starts a table with the whole shipped row, in the notation of the book', () => {
    const { text, cells } = writeBack(undefined, shipped, weavesOf('bar', 5), comma);
    expect(text).toMatch(/^weave;name;family;pitch_ratio;core_take_up\nbar;Bar;bar;1,17\d?;1\n$/);
    expect(cells.map(({ column, before }) => [column, before])).toEqual([['pitch_ratio', '1,17']]);
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
      'weave,family,pitch_ratio,name,core_take_up,angle\nmine,bar,1.5\nbraid,round braid,,Braid,1,36.87\n',
    );
  });

  it('changes only the fitted cells of a row that is there', () => {
    const before = 'weave,name,family,pitch_ratio,core_take_up\nBAR,own name,bar,1.3,\n';
    const { text, cells } = writeBack(before, shipped, weavesOf('bar', 5, 1.0204), point);
    expect(text).toMatch(/^weave,name,family,pitch_ratio,core_take_up\nBAR,own name,bar,1\.17\d?,1\.02\n$/);
    expect(cells.map(({ column, before: was, after }) => [column, was, after.length <= 5])).toEqual([
      ['pitch_ratio', '1.3', true],
      ['core_take_up', '', true],
    ]);
  });
});
