import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

const cores = fc.oneof(fc.integer({ min: 0, max: 12 }), between(0, 12));
const layers = fc.integer({ min: 1, max: 6 });

describe('BAR_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(bar);
    fc.assert(
      fc.property(cores, layers, layers, pitches, (...values) => expectAgreement(bar, native, values)),
    );
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(bar);
    fc.assert(fc.property(stray, stray, stray, stray, (...values) => expectAgreement(bar, native, values)));
    for (const values of [
      [-1, 1, 1, 1.2],
      [2, 0, 1, 1.2],
      [2, 1, 7, 1.2],
      [2, 1.5, 2, 1.2],
      [2, 1, 1, 0],
    ]) {
      expect(bar.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes expressions as well as cells', () => {
    const native = nativeOf(bar, (cell) => `(${cell}*2-${cell})`);
    expectAgreement(bar, native, [2, 1, 3, 1.25]);
  });

  it('says the same, and asks nothing that is known, where layers are written as numbers', () => {
    for (const first of [0, 1, 2, 3, 6, 7]) {
      for (const last of [1, 2, 5, 6, 7]) {
        const written: Readonly<Record<string, string>> = { B1: `${first}`, C1: `${last}` };
        for (const spelled of [written, { B1: `${first}` }, { C1: `${last}` }]) {
          const native = nativeOf(bar, (cell) => ({ ...spelled })[cell] ?? cell);
          expectAgreement(bar, native, [3, first, last, 1.4]);
        }
        if (first >= 1 && first <= 6 && last <= 6) {
          const text = bar.native(['A1', `${first}`, `${last}`, 'D1']);
          expect(text).not.toMatch(/(?<![A-Z])\d[<>]=\d|INT|\+IF|\(IF/);
          expect(text.match(/SQRT\(\(MAX/g)?.length ?? 0).toBe(Math.max(0, last - first + 1));
        }
      }
    }
    expect(bar.native(['A1', '2', 'C1', 'D1'])).not.toMatch(/AND\([^,()]*\)/);
  });

  it('takes nothing when the last layer comes before the first', () => {
    expect(bar.compute(2, 2, 1, 1.2)).toBe(0);
  });

  it('is the sum of its layers', () => {
    fc.assert(
      fc.property(cores, layers, layers, pitches, (core, first, last, pitch) => {
        let sum = 0;
        for (let k = first; k <= last; k += 1) sum += bar.compute(core, k, k, pitch);
        expect(bar.compute(core, first, last, pitch)).toBeCloseTo(sum, 9);
      }),
    );
  });

  it('takes more cord with another layer, a smaller pitch, a wider core', () => {
    fc.assert(
      fc.property(
        cores,
        fc.integer({ min: 1, max: 5 }),
        pitches,
        between(0.01, 2),
        (core, last, pitch, more) => {
          const taken = bar.compute(core, 1, last, pitch);
          expect(bar.compute(core, 1, last + 1, pitch)).toBeGreaterThan(taken);
          expect(bar.compute(core, 1, last, pitch + more)).toBeLessThan(taken);
          expect(bar.compute(Math.max(core, 1) + more, 1, last, pitch)).toBeGreaterThan(taken);
        },
      ),
    );
  });

  it('treats a bare bar as wide as a single strand', () => {
    expect(bar.compute(0, 1, 2, 1.3)).toBe(bar.compute(1, 1, 2, 1.3));
  });
});
