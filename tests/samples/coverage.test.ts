import { describe, expect, it } from 'vitest';
import { simulate, usual } from './simulate.ts';

/**
 * The seeded small sister of `npm run coverage:fit`: 300 workshops instead of 1,000. The bounds are three
 * standard errors of counting 300, and the seed is fixed, so that it cannot fail by chance.
 */
describe('a fit of simulated samples', () => {
  it.each([
    ['three to eight samples', usual],
    ['half knots counted', { ...usual, counted: true }],
    ['two samples', { ...usual, fewestSamples: 2, mostSamples: 2 }],
  ])('holds the true pitch in its 95 %% interval about as often as it says: %s', (_name, workshop) => {
    const { covered, runs } = simulate(workshop, 300, 7);
    expect(covered / runs).toBeGreaterThan(0.95 - 0.038);
    expect(covered / runs).toBeLessThanOrEqual(1);
  });

  it.each([
    [0.02, 0.008, 0.035],
    [0.1, 0.075, 0.125],
  ])('lets a cord run short about as often as chosen: %d', (chanceOfShort, least, most) => {
    const { shortChance } = simulate({ ...usual, chanceOfShort }, 300, 11);
    expect(shortChance).toBeGreaterThan(least);
    expect(shortChance).toBeLessThan(most);
  });

  it('says the same whenever it is asked', () => {
    expect(simulate(usual, 5, 1)).toEqual(simulate(usual, 5, 1));
  });
});
