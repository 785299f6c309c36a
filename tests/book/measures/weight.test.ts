import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  convertWeight,
  isWeightWord,
  parseWeight,
  parseWeightOfLength,
  type WeightUnit,
  weightOfOne,
  weightUnit,
} from '../../../engine/book/measures/weight.ts';

describe('parseWeight', () => {
  it.each([
    ['12 g', 12, 'g'],
    ['12g', 12, 'g'],
    ['1.5 kg', 1.5, 'kg'],
    ['1/2 oz', 0.5, 'oz'],
    ['2 1/4 oz.', 2.25, 'oz'],
    ['3 lbs', 3, 'lb'],
    ['1 lb 4 oz', 20, 'oz'],
    ['2 pounds 1/2 ounce', 32.5, 'oz'],
    ['1,000 grams', 1000, 'g'],
  ] as const)('reads %s', (text, value, unit) => {
    expect(parseWeight(text, 'point')).toEqual({ value, unit });
  });

  it('reads a bare number without a unit, and decimal commas in a book that has them', () => {
    expect(parseWeight('12', 'point')).toEqual({ value: 12 });
    expect(parseWeight('2,4 g', 'comma')).toEqual({ value: 2.4, unit: 'g' });
  });

  it.each(['', 'g', '12 gr', 'some g', '2,4 g', '1 lb -4 oz', '4 oz 1 lb', '3 ft', '1 lb 4'])(
    'refuses %j',
    (text) => {
      expect(parseWeight(text, 'point')).toBeUndefined();
    },
  );
});

describe('parseWeightOfLength', () => {
  it.each([
    ['6.6 g/m', 6.6, 'g', 1, 'm'],
    ['6.6 g per m', 6.6, 'g', 1, 'm'],
    ['1 lb/225 ft', 1, 'lb', 225, 'ft'],
    ['1 lb per 1,000 ft', 1, 'lb', 1000, 'ft'],
    ['1/2 oz/ft', 0.5, 'oz', 1, 'ft'],
    ['225 ft/lb', 1, 'lb', 225, 'ft'],
    ['225 ft per pound', 1, 'lb', 225, 'ft'],
    ['150 m / kg', 1, 'kg', 150, 'm'],
    ['1 oz/3 1/2 ft', 1, 'oz', 3.5, 'ft'],
  ] as const)('reads %s', (text, weight, weightIn, length, lengthIn) => {
    expect(parseWeightOfLength(text, 'point')).toEqual({
      weight: { value: weight, unit: weightIn },
      length: { value: length, unit: lengthIn },
    });
  });

  it.each([
    '6.6',
    '6.6 g',
    '225 ft',
    '0 ft/lb',
    '-2 ft/lb',
    '6.6/7',
    'g/m/s',
    '3 g/g',
    '3 m/m',
    '6,6 g/m',
    '/',
  ])('refuses %j', (text) => {
    expect(parseWeightOfLength(text, 'point')).toBeUndefined();
  });

  it('takes no text for a figure that nobody would write by hand', () => {
    expect(parseWeight(`${'5'.repeat(201)} g`, 'point')).toBeUndefined();
    expect(parseWeightOfLength(`${'5'.repeat(201)} g/m`, 'point')).toBeUndefined();
  });

  it('says the same of a cord both ways', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), (feet) => {
        const one = parseWeightOfLength(`${feet} ft/lb`, 'point');
        const other = parseWeightOfLength(`1 lb/${feet} ft`, 'point');
        expect(one).toEqual(other);
        expect(one === undefined ? 0 : weightOfOne(one, 'lb', 'ft')).toBeCloseTo(1 / feet, 15);
      }),
    );
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'0123456789 .,/gkozlbftmper') }), (text) => {
        const found = parseWeightOfLength(text, 'point');
        expect(found === undefined || Number.isFinite(weightOfOne(found, 'g', 'm'))).toBe(true);
      }),
    );
  });
});

describe('convertWeight', () => {
  const units: readonly WeightUnit[] = ['g', 'kg', 'oz', 'lb'];

  it('there and back is the same weight', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        fc.constantFrom(...units),
        fc.constantFrom(...units),
        (value, from, to) => {
          expect(convertWeight(convertWeight(value, from, to), to, from) / value).toBeCloseTo(1, 12);
        },
      ),
    );
  });
});

describe('weightUnit', () => {
  it('knows units by their words, whatever the capitals', () => {
    expect(weightUnit(' Ounces ')).toBe('oz');
    expect(weightUnit('lbs.')).toBe('lb');
    expect(weightUnit('constructor')).toBeUndefined();
    expect(weightUnit('in')).toBeUndefined();
  });

  it('knows what a heading may say of weights', () => {
    expect(['g', 'oz', 'g/m', 'ft/lb', 'oz per ft'].map(isWeightWord)).toEqual([
      true,
      true,
      true,
      true,
      true,
    ]);
    expect(['in', 'm', '', 'USD', 'm/s'].map(isWeightWord)).toEqual([false, false, false, false, false]);
  });
});
