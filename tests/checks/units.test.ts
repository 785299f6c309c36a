import { describe, expect, it } from 'vitest';
import { convertForce, newtonPerUnit } from '../../engine/book/measures/force.ts';
import { convertLength, mmPerUnit, parseMeasure } from '../../engine/book/measures/measure.ts';
import {
  convertWeight,
  gPerUnit,
  parseWeightOfLength,
  weightOfOne,
} from '../../engine/book/measures/weight.ts';
import { readCell } from '../../engine/book/readCell.ts';
import { fieldOf } from '../book/fieldOf.ts';
import { imperial, metric } from '../support/settings.ts';

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

// NIST Special Publication 811 (2008), appendix B.8; NIST Handbook 44, appendix C. All values are exact.
describe('units of weight and force', () => {
  it.each([
    ['g', 1],
    ['kg', 1000],
    ['oz', 28.349523125],
    ['lb', 453.59237],
  ] as const)('1 %s is %d g', (unit, grams) => {
    expect(gPerUnit[unit]).toBe(grams);
    expect(convertWeight(1, unit, 'g')).toBe(grams);
  });

  it('whole relations stay whole', () => {
    for (let pounds = 1; pounds <= 1000; pounds += 1)
      expect(convertWeight(pounds, 'lb', 'oz')).toBe(pounds * 16);
    for (let kilos = 1; kilos <= 1000; kilos += 1) expect(convertWeight(kilos, 'kg', 'g')).toBe(kilos * 1000);
  });

  it('1 oz/yd is 31.00341… g/m (28.349523125 / 0.9144)', () => {
    const given = parseWeightOfLength('1 oz/yd', 'point');
    expect(given === undefined ? 0 : weightOfOne(given, 'g', 'm')).toBeCloseTo(28.349523125 / 0.9144, 12);
  });

  it('1 lbf is 4.4482216152605 N; 1 kgf is 9.80665 N (3rd CGPM, 1901)', () => {
    expect(convertForce(1, 'lbf', 'N')).toBe(4.4482216152605);
    expect(newtonPerUnit.kgf).toBe(9.80665);
    expect(convertForce(1, 'kgf', 'lbf')).toBeCloseTo(9.80665 / 4.4482216152605, 15);
  });
});
