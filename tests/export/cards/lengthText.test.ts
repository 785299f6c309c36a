import { describe, expect, it } from 'vitest';
import type { Settings } from '../../../engine/book/settings.ts';
import { feetText, lengthText, longText, metricFigure } from '../../../engine/export/cards/lengthText.ts';
import { imperial } from '../../support/settings.ts';

const inches: Settings = imperial;
const centimetres: Settings = { ...inches, decimal: 'comma', lengthUnit: 'cm', cordUnit: 'm' };

describe('lengths on a bench card', () => {
  it.each([
    [609.6, '2 ft'],
    [1397, '4 ft 7 in'],
    [228.6, '9 in'],
    [12.7, '0.5 in'],
    // A hair under a foot reads as the foot, not as twelve inches beside it.
    [1219.19, '4 ft'],
    [304.79999, '1 ft'],
  ])('read %d mm as a tape does: %s', (lengthMm, text) => {
    expect(feetText(lengthMm, inches)).toBe(text);
  });

  it('are written as the book writes numbers', () => {
    expect(feetText(1400, centimetres)).toBe('4 ft 7,12 in');
    expect(metricFigure(1397, centimetres)).toBe('139,7');
    expect(metricFigure(1397, { ...centimetres, lengthUnit: 'mm' })).toBe('1.397');
    expect(lengthText(75, centimetres)).toBe('7,5 cm');
  });

  it('have feet beside many inches, and only beside inches', () => {
    expect(longText(1828.8, inches)).toBe('72 in (6 ft)');
    expect(longText(889, inches)).toBe('35 in');
    expect(longText(1200, centimetres)).toBe('120 cm');
  });
});
