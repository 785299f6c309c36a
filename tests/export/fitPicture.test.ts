import { describe, expect, it } from 'vitest';
import { fitReport } from '../../engine/export/answers/fitReport.ts';
import { fitPicture } from '../../engine/export/fitPicture.ts';
import { fitBook } from '../../engine/fitBook.ts';
import { priceBook } from '../../engine/priceBook.ts';
import { demoBook, sourceOf } from '../support/books.ts';

function pictureOf(samples: string): string {
  const priced = priceBook(sourceOf(new Map([...demoBook('starter'), ['samples.csv', samples]])));
  const fitted = fitBook(priced, { without: [], takeUp: false });
  if (fitted === undefined || priced.plan === undefined || priced.values === undefined)
    throw new Error('no fit');
  const { plan, values } = priced;
  const report = fitReport(plan, values, fitted.weaves, fitted.choice, {
    leftOut: [],
    problems: [],
    written: [],
  });
  return fitPicture(report, plan.settings, (fit) => `${fit.weave} & co`);
}

const rows = (...names: string[]): string =>
  [
    'sample,weave,woven_length,cord_in,cord_left',
    ...names.map((name, at) => `${name},bar,${8 + at} in,120 in,${40 - 10 * at} in`),
  ].join('\n');

describe('fitPicture', () => {
  it('has a row for every sample, a word for the axis and for the next cut', () => {
    const svg = pictureOf(rows('one', 'two', 'three'));
    for (const word of [
      '>one<',
      '>two<',
      '>three<',
      'beyond the fitted amount, %',
      'so that 2.0 % of cords run short',
    ])
      expect(svg).toContain(word);
    expect(svg.match(/<circle/g)).toHaveLength(3);
  });

  it('writes every name as text, whatever marks it has', () => {
    const svg = pictureOf(rows('<script>"x"&y', 'two'));
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&#60;script&#62;');
    expect(svg).toContain('bar &#38; co');
  });

  it('keeps every mark inside the page', () => {
    for (const [, x] of pictureOf(rows('one', 'two', 'three')).matchAll(/cx="([\d.-]+)"/g)) {
      expect(Number(x)).toBeGreaterThan(150 - 1);
      expect(Number(x)).toBeLessThan(580 + 1);
    }
  });
});
