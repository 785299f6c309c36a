import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../engine/book/measures/day.ts';
import type { Settings } from '../../engine/book/settings.ts';
import { showNumber, showTrimmed, showValue } from '../../engine/sheets/showValue.ts';
import { imperial, metric } from '../support/settings.ts';

const inYen: Settings = { ...imperial, currency: 'JPY', currencyDigits: 0 };

describe('a value as people read it', () => {
  it.each([
    [1234.5, 'money', imperial, '1,234.50'],
    [1234.5, 'money', metric, '1.234,50'],
    [1234.5, 'money', inYen, '1,235'],
    [0.12345, 'money_per_unit', imperial, '0.1235'],
    [0.4, 'percent', imperial, '40.0 %'],
    [-0.05, 'percent', metric, '-5,0 %'],
    [12.345, 'weight', { ...imperial, weightUnit: 'oz' }, '12.35'],
    [12.345, 'weight', { ...imperial, weightUnit: 'g' }, '12.3'],
    [0.12345, 'weight_per_unit', { ...imperial, weightUnit: 'oz' }, '0.1235'],
    [6.6, 'weight_per_unit', { ...imperial, weightUnit: 'g' }, '6.60'],
    [550.4, 'force', imperial, '550'],
    [7, 'count', imperial, '7'],
    [12.25, 'minutes', imperial, '12.3'],
    [37.96, 'angle', imperial, '38.0'],
    [8.125, 'length', imperial, '8.13'],
    [dayNumber(2026, 10, 31) ?? 0, 'date', imperial, '2026-10-31'],
    ['bar', 'text', imperial, 'bar'],
    [true, 'text', imperial, 'true'],
    [null, 'money', imperial, ''],
  ] as const)('%j of the kind %s', (value, kind, settings, text) => {
    expect(showValue(value, kind, settings)).toBe(text);
  });

  it('has no minus sign where nothing is left of it, and no zeros at the end where they are cut off', () => {
    expect(showNumber(-0.001, 2, imperial)).toBe('0.00');
    expect([49, 7.5, 12.25, 1000].map((each) => showTrimmed(each, 2, metric))).toEqual([
      '49',
      '7,5',
      '12,25',
      '1.000',
    ]);
    expect(showTrimmed(1200, 0, imperial)).toBe('1,200');
  });
});
