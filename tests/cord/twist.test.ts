import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { twist } from '../../engine/cord/twist.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

const cores = fc.oneof(fc.integer({ min: 0, max: 12 }), between(0, 12));
const knots = fc.oneof(fc.integer({ min: 4, max: 40 }), between(4, 40));

describe('TWIST_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(twist);
    fc.assert(fc.property(cores, pitches, knots, (...values) => expectAgreement(twist, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(twist);
    fc.assert(fc.property(stray, stray, stray, (...values) => expectAgreement(twist, native, values)));
    for (const values of [
      [-1, 1.2, 12],
      [2, 0, 12],
      [2, 1.2, 3.9],
      [2, 1.2, -12],
    ]) {
      expect(twist.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord with a smaller pitch and a wider core', () => {
    fc.assert(
      fc.property(cores, pitches, knots, between(0.01, 2), (core, pitch, perTurn, more) => {
        const taken = twist.compute(core, pitch, perTurn);
        expect(twist.compute(core, pitch + more, perTurn)).toBeLessThan(taken);
        expect(twist.compute(Math.max(core, 1) + more, pitch, perTurn)).toBeGreaterThan(taken);
      }),
    );
  });

  it('comes to a bar where it hardly turns', () => {
    fc.assert(
      fc.property(cores, pitches, (core, pitch) => {
        expect(twist.compute(core, pitch, 1e9) / bar.compute(core, 1, 1, pitch)).toBeCloseTo(1, 6);
      }),
    );
  });

  it('takes within 2 % of a bar, at the pitches and turns that are made', () => {
    fc.assert(
      fc.property(between(0, 6), between(1.1, 1.7), between(8, 16), (core, pitch, perTurn) => {
        const ratio = twist.compute(core, pitch, perTurn) / bar.compute(core, 1, 1, pitch);
        expect(ratio).toBeGreaterThan(0.98);
        expect(ratio).toBeLessThan(1);
      }),
    );
  });
});
