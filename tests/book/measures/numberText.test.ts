import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  numberText,
  otherMark,
  parseNumber,
  shiftDecimal,
} from '../../../engine/book/measures/numberText.ts';

describe('parseNumber', () => {
  it.each([
    ['12', 12],
    ['12.5', 12.5],
    ['.5', 0.5],
    ['-3', -3],
    ['+3', 3],
    ['−3', -3],
    ['1,000', 1000],
    ["1'000", 1000],
    ['1 000 000.25', 1_000_000.25],
    ['1\u00a0000', 1000],
    ['7 1/2', 7.5],
    ['7-1/2', 7.5],
    ['5/32', 0.15625],
    ['-1/8', -0.125],
    ['1⁄4', 0.25],
  ])('reads %s in a book with decimal points', (text, value) => {
    expect(parseNumber(text, 'point')).toBe(value);
  });

  it.each([
    ['12,5', 12.5],
    ['1.000', 1000],
    ['1.000,25', 1000.25],
    ['1 000,25', 1000.25],
  ])('reads %s in a book with decimal commas', (text, value) => {
    expect(parseNumber(text, 'comma')).toBe(value);
  });

  it.each([
    '',
    '-',
    '.',
    'two',
    '1,5',
    '12,34',
    '1,00,0',
    '1.2.3',
    '1/0',
    '1e3',
    '0x10',
    'Infinity',
    '1/2/3',
  ])('refuses %s in a book with decimal points', (text) => {
    expect(parseNumber(text, 'point')).toBeUndefined();
  });

  it.each(['12.5', '1,000,000', '1.00'])('refuses %s in a book with decimal commas', (text) => {
    expect(parseNumber(text, 'comma')).toBeUndefined();
  });

  it('reads back what numberText writes, whichever mark', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.integer({ min: 0, max: 4 }),
        fc.constantFrom('point' as const, 'comma' as const),
        (whole, places, mark) => {
          const value = shiftDecimal(whole, -places);
          const back = parseNumber(numberText(value, mark), mark);
          expect(back === 0 ? 0 : back).toBe(value === 0 ? 0 : value);
        },
      ),
    );
  });

  it('gives a finite number or nothing for any text, and never throws', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom('point' as const, 'comma' as const), (text, mark) => {
        const value = parseNumber(text, mark);
        expect(value === undefined || Number.isFinite(value)).toBe(true);
      }),
    );
  });
});

describe('shiftDecimal', () => {
  it('moves the mark without a binary slip', () => {
    expect(shiftDecimal(7.1, -2)).toBe(0.071);
    expect(shiftDecimal(0.07, 2)).toBe(7);
    expect(shiftDecimal(1e-7, 2)).toBe(0.00001);
  });
});

describe('otherMark', () => {
  it('is the other one', () => {
    expect(otherMark('point')).toBe('comma');
    expect(otherMark('comma')).toBe('point');
  });
});

describe('parseNumber of endless text', () => {
  it('is undefined at once', () => {
    const started = performance.now();
    for (const piece of ["1' ", '1 ', '- ']) {
      const text = piece.repeat(200_000);
      expect(parseNumber(text, 'point')).toBeUndefined();
    }
    expect(performance.now() - started).toBeLessThan(1000);
  });
});
