import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ceilingTo,
  floorTo,
  remainder,
  roundDownTo,
  roundTo,
  roundToMultiple,
  roundUpTo,
  wholeBelow,
} from '../../engine/money/rounding.ts';

// The same roundings in whole numbers of any length: a decimal is units and places, and nothing is ever inexact. The
// double that a decimal literal means (IEEE 754, correctly rounded) is what a result is held against.

interface Decimal {
  readonly units: bigint;
  /** The decimal is units / 10^places; below nothing, units times a power of ten. */
  readonly places: number;
}

const ten = (exponent: number): bigint => 10n ** BigInt(exponent);
const literal = ({ units, places }: Decimal): number => Number(`${units}e${-places}`) + 0;
/** As whole units of 10^-places, for a number of places that loses nothing. */
const inPlaces = (x: Decimal, places: number): bigint => x.units * ten(places - x.places);

type Way = 'half-away' | 'half-even' | 'up' | 'down' | 'floor' | 'ceiling';

/** The whole number that a / b becomes; b above nothing. */
function whole(a: bigint, b: bigint, way: Way): bigint {
  const towards = a / b;
  const rest = a % b;
  if (rest === 0n) return towards;
  const away = towards + (a < 0n ? -1n : 1n);
  if (way === 'down') return towards;
  if (way === 'up') return away;
  if (way === 'floor') return a < 0n ? away : towards;
  if (way === 'ceiling') return a < 0n ? towards : away;
  const doubled = 2n * (rest < 0n ? -rest : rest);
  if (doubled !== b) return doubled > b ? away : towards;
  return way === 'half-away' || towards % 2n !== 0n ? away : towards;
}

function rounded(x: Decimal, digits: number, way: Way): number {
  const common = Math.max(x.places, digits, 0);
  const unit = ten(common - digits);
  return literal({ units: whole(inPlaces(x, common), unit, way), places: digits });
}

/** Decimals of up to so many digits, from millions of millions down to tiny parts, ties among them. */
const decimals = (digits: number): fc.Arbitrary<Decimal> =>
  fc
    .record({
      units: fc.bigInt({ min: -(10n ** BigInt(digits)) + 1n, max: 10n ** BigInt(digits) - 1n }),
      shorter: fc.integer({ min: 0, max: digits - 1 }),
      five: fc.boolean(),
      places: fc.integer({ min: -6, max: 14 }),
    })
    .map(({ units, shorter, five, places }) => {
      const short = units / ten(shorter);
      return { units: five ? (short / 10n) * 10n + 5n : short, places };
    });

const runs = { numRuns: 400 };

/**
 * Up to so many units of what is rounded to. Beyond, the product with a power of ten is taken as it stands, and the last
 * unit may be one off: cents of 10 milliard, hundred-millionths of 10,000.
 */
const mostUnits = 2 ** 40;
const isWithin = (x: Decimal, digits: number): boolean => Math.abs(literal(x)) * 10 ** digits < mostUnits;

describe('roundings, against whole numbers of any length', () => {
  it.each(['half-away', 'half-even'] as const)('ROUND %s', (mode) => {
    fc.assert(
      fc.property(decimals(14), fc.integer({ min: -9, max: 12 }), (x, digits) => {
        fc.pre(isWithin(x, digits));
        // At 0 digits the double itself decides, and a double of so few digits has its decimal's ties.
        expect(roundTo(literal(x), digits, mode)).toBe(rounded(x, digits, mode));
      }),
      runs,
    );
  });

  it('ROUNDUP and ROUNDDOWN', () => {
    fc.assert(
      fc.property(decimals(11), fc.integer({ min: -9, max: 8 }), (x, digits) => {
        fc.pre(isWithin(x, digits));
        expect(roundUpTo(literal(x), digits)).toBe(rounded(x, digits, 'up'));
        expect(roundDownTo(literal(x), digits)).toBe(rounded(x, digits, 'down'));
      }),
      runs,
    );
  });

  it('INT', () => {
    fc.assert(
      fc.property(decimals(14), (x) => {
        fc.pre(isWithin(x, 0));
        expect(wholeBelow(literal(x))).toBe(rounded(x, 0, 'floor'));
      }),
      runs,
    );
  });

  const steps = fc.record({
    units: fc.bigInt({ min: 1n, max: 9999n }),
    places: fc.integer({ min: 0, max: 8 }),
  });

  it('CEILING, FLOOR and MOD', () => {
    fc.assert(
      fc.property(decimals(9), steps, fc.boolean(), (x, step, below) => {
        const common = Math.max(x.places, step.places, 0);
        const [a, b] = [inPlaces(x, common), inPlaces(step, common)];
        const times = (way: Way): number => literal({ units: whole(a, b, way) * b, places: common });
        fc.pre(Math.abs(Number(a / b)) < mostUnits);
        expect(ceilingTo(literal(x), literal(step))).toBe(times('ceiling'));
        expect(floorTo(literal(x), literal(step))).toBe(times('floor'));
        // With both below nothing, towards and away from zero change places.
        if (a < 0n) {
          expect(ceilingTo(literal(x), -literal(step))).toBe(times('floor'));
          expect(floorTo(literal(x), -literal(step))).toBe(times('ceiling'));
        }
        const rest = ((a % b) + b) % b;
        const signed = below && rest !== 0n ? rest - b : rest;
        // So near 0 that divisor and x are the divisor again, the rest is noise as well.
        fc.pre(a === 0n || Math.abs(literal(x)) > 1e-9 * literal(step));
        // A rest of less than 2^-48 of x is noise.
        fc.pre(rest === 0n || rest * 2n ** 44n > (a < 0n ? -a : a));
        const divisor = below ? -literal(step) : literal(step);
        const found = remainder(literal(x), divisor);
        const expected = literal({ units: signed, places: common });
        expect(Math.abs(found - expected)).toBeLessThanOrEqual(Math.abs(literal(x)) * 2 ** -50);
      }),
      runs,
    );
  });
});

describe('at the ends of what a double holds', () => {
  const huge = 2 ** 52;

  it('no fraction is left to round from 2^52 on', () => {
    for (const x of [huge, huge + 1, 2 ** 53, 1e17, 1.7976931348623157e308]) {
      for (const round of [roundTo, roundUpTo, roundDownTo]) {
        expect(round(x)).toBe(x);
        expect(round(-x)).toBe(-x);
        expect(round(x, 2)).toBe(x);
      }
      expect(wholeBelow(x)).toBe(x);
      expect(ceilingTo(x, 1)).toBe(x);
      expect(floorTo(-x, 1)).toBe(-x);
      expect(roundToMultiple(x, 1)).toBe(x);
    }
    expect(roundTo(huge / 2 - 0.5)).toBe(huge / 2);
    expect(roundTo(-(huge / 2) + 0.5)).toBe(-(huge / 2));
    expect(roundTo(huge - 0.5)).toBe(huge);
    expect(roundTo(45035996273704.97, 2)).toBe(45035996273704.97);
  });

  it('a place above any number leaves nothing, one below any digit leaves all', () => {
    for (const round of [roundTo, roundDownTo]) {
      expect(round(123.456, -400)).toBe(0);
      expect(round(-123.456, -5)).toBe(0);
      expect(round(123.456, 400)).toBe(123.456);
      expect(round(123.456, 308)).toBe(123.456);
    }
    expect(roundTo(6e307, -308)).toBe(1e308);
    expect(roundTo(4e307, -308)).toBe(0);
    expect(roundUpTo(1, -2)).toBe(100);
    expect(roundUpTo(-1, -2)).toBe(-100);
    // 2 times 10^308 is no double: the number stays.
    expect(roundUpTo(1.5e308, -308)).toBe(1.5e308);
  });

  it('far places are read as decimals are: 10^23 is no double', () => {
    expect(roundTo(1.25e-24, 25)).toBe(1.3e-24);
    expect(roundTo(1.4e24, -24)).toBe(1e24);
    expect(roundTo(2.5e24, -24, 'half-even')).toBe(2e24);
    expect(roundTo(1.15e-22, 23)).toBe(1.2e-22);
    for (let k = 1; k < 1000; k += 1) {
      expect(roundTo(Number(`${k}.4e-23`), 23)).toBe(Number(`${k}e-23`));
      expect(roundTo(Number(`${k}.4e24`), -24)).toBe(Number(`${k}e24`));
    }
  });

  it('going up, noise from the 13th digit on counts for nothing, where three places past those asked for stay', () => {
    expect(roundUpTo(1.210000000004, 2)).toBe(1.21);
    expect(roundUpTo(1.21000000001, 2)).toBe(1.22);
    expect(roundDownTo(1.219999999996, 2)).toBe(1.22);
    expect(roundUpTo(12345678.120004, 2)).toBe(12345678.12);
    expect(roundUpTo(12345678.12004, 2)).toBe(12345678.13);
    expect(roundUpTo(1230000000004.4, -4)).toBe(1230000000000);
    expect(roundUpTo(1230000000006.4, -4)).toBe(1230000010000);
    expect(roundUpTo(-1230000000004.4, -4)).toBe(-1230000000000);
    // Whole numbers have no noise.
    expect(roundUpTo(1230000000001, -4)).toBe(1230000010000);
  });

  it('what at most eleven binary places say is no noise, and what the 16th digit says is', () => {
    expect(ceilingTo(1e12 + 1 / 2048, 1)).toBe(1e12 + 1);
    expect(wholeBelow(0.9999999999999999)).toBe(1);
    expect(wholeBelow(-0.9999999999999999)).toBe(-1);
  });

  it('nothing is below nothing: no zero has a sign', () => {
    const zeros = [
      ...[roundTo, roundUpTo, roundDownTo].flatMap((round) => [round(-0), round(-0, 2), round(0, -2)]),
      roundTo(-0.2),
      roundTo(-0.002, 2),
      roundDownTo(-0.002, 2),
      wholeBelow(-0),
      ceilingTo(-0.2, 1),
      ceilingTo(-0, 1),
      floorTo(-0, 1),
      roundToMultiple(-0.2, 1),
      remainder(-6, 3),
      remainder(-0, 3),
      remainder(-6.6, 2.2),
      roundTo(5, -0),
    ];
    for (const [at, zero] of zeros.slice(0, -1).entries()) expect(Object.is(zero, 0), `${at}`).toBe(true);
  });

  it('a step of nothing gives nothing, and one too small for a quotient gives the number', () => {
    expect(ceilingTo(5, 0)).toBe(0);
    expect(floorTo(-5, 0)).toBe(0);
    expect(roundToMultiple(5, 0)).toBe(0);
    expect(ceilingTo(1e300, 1e-300)).toBe(1e300);
    expect(ceilingTo(0, 0.3)).toBe(0);
    expect(ceilingTo(1, 1.7e308)).toBe(1.7e308);
    expect(floorTo(1.7e308, 1.1e308)).toBe(1.1e308);
    // Two steps are more than there is.
    expect(ceilingTo(1.7e308, 1.1e308)).toBe(1.7e308);
    // A step of more digits than a short decimal: 3 times 0.3333333333333333.
    expect(ceilingTo(0.9, 1 / 3)).toBe(0.9999999999999999);
    expect(ceilingTo(2.9, 0.123456789)).toBeCloseTo(24 * 0.123456789, 15);
    expect(floorTo(1e15, 0.7)).toBeCloseTo(0.7 * Math.floor(1e16 / 7), -1);
  });

  it('what is left of whole numbers is exact, with the divisor’s sign', () => {
    for (const a of [-9007199254740991, -7, -6, -1, 0, 1, 6, 7, 9007199254740991])
      for (const b of [-5, -3, -1, 1, 3, 5]) {
        const rest = ((BigInt(a) % BigInt(b)) + BigInt(b)) % BigInt(b);
        expect(remainder(a, b)).toBe(Number(rest) + 0);
      }
    expect(remainder(5, 0)).toBe(0);
    expect(remainder(0, 5)).toBe(0);
  });

  it('what is left is noise where the quotient has no fraction any more, or nearly the divisor itself', () => {
    expect(remainder(1e17 + 0.5, 0.3)).toBe(0);
    expect(remainder(2 ** 53, 0.5)).toBe(0);
    expect(remainder(-1e-20, 3.5)).toBe(0);
    expect(remainder(1e-20, 3.5)).toBe(1e-20);
    expect(remainder(7.25, -2.5)).toBe(-0.25);
    expect(remainder(-7.25, 2.5)).toBe(0.25);
    expect(remainder(2.5, 2.5)).toBe(0);
    // 1.00000000000001, as it is written, has a rest of more than 2^-48 of it; 1.000000000000003 has dust.
    expect(remainder(1.00000000000001, 0.5)).toBe(1e-14);
    expect(remainder(1.000000000000003, 0.5)).toBe(0);
  });
});
