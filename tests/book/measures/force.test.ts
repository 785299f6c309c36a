import { describe, expect, it } from 'vitest';
import { convertForce, forceUnit, forceUnitOf, parseForce } from '../../../engine/book/measures/force.ts';
import { imperial, metric } from '../../support/settings.ts';

describe('parseForce', () => {
  it.each([
    ['550 lbf', 550, 'lbf'],
    ['550 lb', 550, 'lbf'],
    ['2.4 kN', 2.4, 'kN'],
    ['2,400 N', 2400, 'N'],
    ['250 kg', 250, 'kgf'],
    ['250 kgf', 250, 'kgf'],
  ] as const)('reads %s', (text, value, unit) => {
    expect(parseForce(text, 'point')).toEqual({ value, unit });
  });

  it('reads a bare number without a unit', () => {
    expect(parseForce('550', 'point')).toEqual({ value: 550 });
  });

  it('takes no text for a figure that nobody would write by hand', () => {
    expect(parseForce(`${'5'.repeat(201)} N`, 'point')).toBeUndefined();
  });

  it.each(['', 'strong', '550 g', '2,4 kN', '3 tons'])('refuses %j', (text) => {
    expect(parseForce(text, 'point')).toBeUndefined();
  });
});

it('shows pounds-force beside inches and newtons otherwise', () => {
  expect([imperial, metric].map(forceUnitOf)).toEqual(['lbf', 'N']);
  expect(forceUnit('toString')).toBeUndefined();
  expect(convertForce(550, 'lbf', 'lbf')).toBe(550);
  expect(convertForce(2.5, 'kN', 'N')).toBe(2500);
});
