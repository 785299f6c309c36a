import fc from 'fast-check';

/** Any number of a range, both ends included; a billionth counts as 0, as no measure is that small. */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc
    .double({ min, max, noNaN: true, noDefaultInfinity: true })
    .map((value) => (Math.abs(value) < 1e-9 ? 0 : value));

/** Numbers that a careless book may hold: none, negative, fractional, huge. */
export const stray: fc.Arbitrary<number> = fc.oneof(
  fc.constantFrom(0, -1, 0.5, 1, 1.5, 2.000001, 6, 7, 89, 90, 91, 180, 1e-7, 1e12, -0.25),
  fc.integer({ min: -3, max: 9 }),
  between(-200, 200),
);

export const pitches: fc.Arbitrary<number> = between(0.2, 20);
