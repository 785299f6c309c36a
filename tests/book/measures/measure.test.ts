import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  convertLength,
  feetAndInches,
  type LengthUnit,
  lengthUnit,
  parseMeasure,
} from '../../../engine/book/measures/measure.ts';

describe('parseMeasure', () => {
  it.each([
    ['8 in', 8, 'in'],
    ['8in', 8, 'in'],
    ['8 in.', 8, 'in'],
    ['8 inches', 8, 'in'],
    ['7 1/2 in', 7.5, 'in'],
    ['7 1/2"', 7.5, 'in'],
    ['5/32"', 0.15625, 'in'],
    ["5''", 5, 'in'],
    ['20 cm', 20, 'cm'],
    ['4 mm', 4, 'mm'],
    ['1,000 ft', 1000, 'ft'],
    ["6'", 6, 'ft'],
    ['100 yd', 100, 'yd'],
    ['1.2 m', 1.2, 'm'],
    ['5 ft 6 in', 66, 'in'],
    ['5\' 6"', 66, 'in'],
    ['5′ 6 1/2″', 66.5, 'in'],
    ['5 feet 6 inches', 66, 'in'],
  ])('reads %s', (text, value, unit) => {
    expect(parseMeasure(text, 'point')).toEqual({ value, unit });
  });

  it('reads a bare number without a unit', () => {
    expect(parseMeasure('7 1/2', 'point')).toEqual({ value: 7.5 });
  });

  it('reads decimal commas in a book that has them', () => {
    expect(parseMeasure('1,2 m', 'comma')).toEqual({ value: 1.2, unit: 'm' });
    expect(parseMeasure('1.000 m', 'comma')).toEqual({ value: 1000, unit: 'm' });
  });

  it.each(['', 'in', '12 hands', 'four feet', '4x', '5 ft -6 in', '1,2 m', '5 in 6 ft', '--4 in', '4 in 4'])(
    'refuses %s',
    (text) => {
      expect(parseMeasure(text, 'point')).toBeUndefined();
    },
  );

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'0123456789 .,/\'"″ftincmyd-') }), (text) => {
        const measure = parseMeasure(text, 'point');
        expect(measure === undefined || Number.isFinite(measure.value)).toBe(true);
      }),
    );
  });
});

describe('convertLength', () => {
  const units: readonly LengthUnit[] = ['mm', 'cm', 'm', 'in', 'ft', 'yd'];

  it('leaves a length in its own unit exactly as it is', () => {
    for (const unit of units) expect(convertLength(0.1, unit, unit)).toBe(0.1);
  });

  it('there and back is the same length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        fc.constantFrom(...units),
        fc.constantFrom(...units),
        (value, from, to) => {
          expect(convertLength(convertLength(value, from, to), to, from) / value).toBeCloseTo(1, 12);
        },
      ),
    );
  });
});

describe('lengthUnit', () => {
  it('knows words and signs, and nothing else', () => {
    expect(lengthUnit(' Inches ')).toBe('in');
    expect(lengthUnit('″')).toBe('in');
    expect(lengthUnit('constructor')).toBeUndefined();
    expect(lengthUnit('')).toBeUndefined();
  });
});

describe('parseMeasure of endless text', () => {
  it('is undefined at once', () => {
    const started = performance.now();
    for (const piece of ["1' ", '1 ', '- ']) {
      const text = piece.repeat(200_000);
      expect(parseMeasure(text, 'point')).toBeUndefined();
    }
    expect(performance.now() - started).toBeLessThan(1000);
  });
});

describe('feetAndInches', () => {
  it.each([
    [12 * 25.4, 1, 0],
    [49 * 25.4, 4, 1],
    [7.5 * 25.4, 0, 7.5],
    [0.1 * 3 * 10 * 304.8, 3, 0],
  ])('reads %f mm as %i ft %f in', (lengthMm, feet, inches) => {
    const read = feetAndInches(lengthMm);
    expect(read.feet).toBe(feet);
    expect(read.inches).toBeCloseTo(inches, 9);
  });
});
