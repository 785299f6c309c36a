import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { snake } from '../../engine/cord/snake.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';
import { snakeWeave, tautenedDown } from './drawn/tautWeaves.ts';

describe('SNAKE_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(snake);
    fc.assert(fc.property(pitches, (...values) => expectAgreement(snake, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(snake);
    fc.assert(fc.property(stray, (...values) => expectAgreement(snake, native, values)));
    for (const pitch of [0, -2]) {
      expect(snake.compute(pitch)).toBeNaN();
      expect(native(pitch)).toBeNaN();
    }
  });

  it('takes less cord per length the longer a loop is, and never less than its strands laid straight', () => {
    fc.assert(
      fc.property(pitches, between(0.1, 5), (c, more) => {
        expect(snake.compute(c + more)).toBeLessThan(snake.compute(c));
        expect(snake.compute(c)).toBeGreaterThan(2);
      }),
    );
  });

  it('each cord about five times the finished length, worked close (common practice, no source)', () => {
    expect(snake.compute(2.4)).toBeGreaterThan(4.5);
    expect(snake.compute(2.4)).toBeLessThan(5.5);
  });
});

describe('a row of snake knots drawn in space and pulled taut', () => {
  const spaced = [4, 3, 2.5, 2.2];

  it('takes what the closed form says, within 2 %, its cords a diameter apart', () => {
    tautenedDown(snakeWeave, spaced).forEach((taut, i) => {
      const pitch = spaced[i]!;
      expect(taut.closest).toBeGreaterThan(0.985);
      expect(taut.closest).toBeLessThan(1.01);
      expect(Math.abs((snake.compute(pitch) * pitch) / taut.length - 1), `pitch ${pitch}`).toBeLessThan(0.02);
    });
  });
});
