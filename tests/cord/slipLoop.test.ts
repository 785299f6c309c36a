import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { slipLoop } from '../../engine/cord/slipLoop.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

const cores = fc.oneof(fc.integer({ min: 0, max: 12 }), between(0, 12));

describe('SLIP_LOOP_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(slipLoop);
    fc.assert(fc.property(cores, pitches, (...values) => expectAgreement(slipLoop, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(slipLoop);
    fc.assert(fc.property(stray, stray, (...values) => expectAgreement(slipLoop, native, values)));
    for (const values of [
      [-1, 1.2],
      [2, 0],
      [2, -1],
    ]) {
      expect(slipLoop.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord with a wider core, less with a larger pitch', () => {
    fc.assert(
      fc.property(cores, pitches, between(0.01, 2), (core, pitch, more) => {
        const taken = slipLoop.compute(core, pitch);
        expect(slipLoop.compute(Math.max(core, 1) + more, pitch)).toBeGreaterThan(taken);
        expect(slipLoop.compute(core, pitch + more)).toBeLessThan(taken);
      }),
    );
  });

  it('treats a bare bar as wide as a single strand', () => {
    expect(slipLoop.compute(0, 1.3)).toBe(slipLoop.compute(1, 1.3));
  });

  it('takes about as much as a bar or more, at the same pitch (common practice, no source)', () => {
    for (const core of [1, 2, 4]) {
      for (const pitch of [1.17, 1.4]) {
        const ratio = slipLoop.compute(core, pitch) / bar.compute(core, 1, 1, pitch);
        expect(ratio).toBeGreaterThan(1);
        expect(ratio).toBeLessThan(1.15);
      }
    }
  });
});
