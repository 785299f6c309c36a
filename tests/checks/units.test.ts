import { describe, expect, it } from 'vitest';
import { convertLength, mmPerUnit, parseMeasure } from '../../engine/book/measure.ts';
import { readCell } from '../../engine/book/readCell.ts';
import { fieldOf, imperial, metric } from '../book/fieldOf.ts';

// NIST Special Publication 811 (2008), appendix B.8; NIST Handbook 44, appendix C, section 4; International
// Yard and Pound Agreement 1959. The foot is the international one, not the survey foot. All values are exact.
describe('units of length', () => {
  it.each([
    ['in', 25.4],
    ['ft', 304.8],
    ['yd', 914.4],
    ['cm', 10],
    ['m', 1000],
    ['mm', 1],
  ] as const)('1 %s is %d mm', (unit, mm) => {
    expect(mmPerUnit[unit]).toBe(mm);
    expect(convertLength(1, unit, 'mm')).toBe(mm);
  });

  it('whole relations stay whole: no 12.000000000000002', () => {
    expect(convertLength(1, 'ft', 'in')).toBe(12);
    expect(convertLength(1, 'yd', 'ft')).toBe(3);
    expect(convertLength(1, 'yd', 'in')).toBe(36);
    for (let feet = 1; feet <= 1000; feet += 1) expect(convertLength(feet, 'ft', 'in')).toBe(feet * 12);
    for (let metres = 1; metres <= 1000; metres += 1)
      expect(convertLength(metres, 'm', 'cm')).toBe(metres * 100);
  });

  it('5/32 in is 3.96875 mm', () => {
    const measure = parseMeasure('5/32"', 'point');
    expect(convertLength(measure?.value ?? 0, 'in', 'mm')).toBeCloseTo(3.96875, 12);
  });

  it('1,000 ft is 304.8 m', () => {
    expect(convertLength(parseMeasure('1,000 ft', 'point')?.value ?? 0, 'ft', 'm')).toBeCloseTo(304.8, 10);
  });

  it('20 cm is 7.874015748… in (20 / 2.54)', () => {
    const reading = readCell('20 cm', fieldOf('length', { kind: 'length' }), imperial);
    expect('value' in reading && reading.value).toBeCloseTo(20 / 2.54, 12);
  });

  it('8 in is 20.32 cm', () => {
    const reading = readCell('8 in', fieldOf('length', { kind: 'length' }), metric);
    expect('value' in reading && reading.value).toBeCloseTo(20.32, 12);
  });

  it('5 ft 6 in is 66 in, which is 1.6764 m', () => {
    expect(parseMeasure('5 ft 6 in', 'point')).toEqual({ value: 66, unit: 'in' });
    expect(convertLength(66, 'in', 'm')).toBeCloseTo(1.6764, 12);
  });
});
