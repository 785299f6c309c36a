import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberKinds } from '../../engine/book/measures/kinds.ts';
import { readCell } from '../../engine/book/readCell.ts';
import type { FieldSchema } from '../../engine/book/schema.ts';
import type { Settings } from '../../engine/book/settings.ts';
import { imperial, metric } from '../support/settings.ts';
import { fieldOf } from './fieldOf.ts';

function value(
  kind: FieldSchema['kind'],
  text: string,
  settings: Settings = imperial,
  rest: Partial<FieldSchema> = {},
): unknown {
  const reading = readCell(text, fieldOf('some', { kind, ...rest }), settings);
  return 'fault' in reading ? reading.fault.code : reading.value;
}

describe('readCell', () => {
  it('reads lengths into the short unit of the book', () => {
    expect(value('length', '8')).toBe(8);
    expect(value('length', '4 ft')).toBe(48);
    expect(value('length', '20 cm', metric)).toBe(20);
    expect(value('length', '1,2 m', metric)).toBe(120);
    expect(value('length', '254 mm')).toBe(10);
  });

  it('reads cord into the long unit, and diameters into millimetres', () => {
    expect(value('cord', '100 yd')).toBe(300);
    expect(value('cord', '100')).toBe(100);
    expect(value('fine', '5/32"')).toBeCloseTo(3.96875, 12);
    expect(value('fine', '4')).toBe(4);
  });

  it('takes the unit of the heading for bare numbers', () => {
    expect(readCell('20', fieldOf('some', { kind: 'length' }), metric, 'mm')).toMatchObject({
      value: 2,
      unit: 'mm',
    });
    expect(readCell('20 cm', fieldOf('some', { kind: 'length' }), metric, 'mm')).toMatchObject({
      value: 20,
      unit: 'cm',
    });
  });

  it('reads quantities as pieces or as lengths', () => {
    expect(value('quantity', '100 pcs')).toBe(100);
    expect(value('quantity', '3')).toBe(3);
    expect(value('quantity', '20 in')).toBeCloseTo(20 / 12, 12);
    expect(value('quantity', 'some')).toBe('not-a-measure');
  });

  it('holds percentages as ratios, to the last digit', () => {
    expect(value('percent', '7.1')).toBe(0.071);
    expect(value('percent', '45 %')).toBe(0.45);
    expect(value('percent', '2,9', metric)).toBe(0.029);
  });

  it('looks twice at a percentage below one, unless it has its sign', () => {
    const suspicious = readCell('0.35', fieldOf('some', { kind: 'percent' }), imperial);
    expect('watch' in suspicious && suspicious.watch?.code).toBe('percent-suspect');
    for (const text of ['0.35 %', '0', '1', '35']) {
      const reading = readCell(text, fieldOf('some', { kind: 'percent' }), imperial);
      expect('watch' in reading && reading.watch).toBeFalsy();
    }
  });

  it('reads money with or without its sign or code', () => {
    expect(value('money', '$1,234.50')).toBe(1234.5);
    expect(value('money', '12.50 USD')).toBe(12.5);
    expect(value('money', 'eur 12,50', metric)).toBe(12.5);
    expect(value('money', '12 francs')).toBe('not-a-number');
  });

  it('reads minutes, hours and angles with their words', () => {
    expect(value('minutes', '12 min')).toBe(12);
    expect(value('hours', '1.5 hours')).toBe(1.5);
    expect(value('angle', '38°')).toBe(38);
  });

  it('reads weights into the unit of the book', () => {
    expect(value('weight', '1 lb')).toBe(16);
    expect(value('weight', '4')).toBe(4);
    expect(value('weight', '0,5 kg', metric)).toBe(500);
    expect(value('weight', 'heavy')).toBe('not-a-measure');
    expect(value('weight', '6.6 g/m')).toBe('not-a-measure');
  });

  it('reads the weight of one cord unit or piece, also where it is given for another length', () => {
    expect(value('weight_per_unit', '1 lb/16 ft')).toBe(1);
    expect(value('weight_per_unit', '16 ft/lb')).toBe(1);
    expect(value('weight_per_unit', '0,5 kg/100 m', metric)).toBe(5);
    expect(value('weight_per_unit', '2 oz')).toBe(2);
    expect(value('weight_per_unit', 'light')).toBe('not-a-measure');
    expect(value('weight_per_unit', '-1 g/m', imperial, { min: 0 })).toBe('out-of-range');
  });

  it('takes the unit of a weight or strength from the heading where the cell has none', () => {
    const read = (kind: 'weight' | 'weight_per_unit' | 'force', text: string, unit: string) => {
      const reading = readCell(text, fieldOf('some', { kind }), metric, unit);
      return 'value' in reading ? reading.value : reading.fault.code;
    };
    expect(read('weight', '2', 'kg')).toBe(2000);
    expect(read('weight', '2 g', 'kg')).toBe(2);
    expect(read('weight_per_unit', '3', 'kg/100 m')).toBe(30);
    expect(read('weight_per_unit', '100', 'm/kg')).toBe(10);
    expect(read('force', '2', 'kN')).toBe(2000);
    expect(read('force', '2 N', 'kN')).toBe(2);
  });

  it('reads strengths into pounds-force or newtons', () => {
    expect(value('force', '550 lb')).toBe(550);
    expect([value('force', '550'), value('force', '2400', metric)]).toEqual([550, 2400]);
    expect(value('force', '2,5 kN', metric)).toBe(2500);
    expect(value('force', 'strong')).toBe('not-a-measure');
  });

  it('takes whole numbers only for counts', () => {
    expect(value('count', '4')).toBe(4);
    expect(value('count', '4.0')).toBe(4);
    expect(value('count', '1.5')).toBe('not-a-number');
  });

  it('reads words whatever their capitals', () => {
    expect(value('choice', 'Round  Braid', imperial, { choices: ['bar', 'round braid'] })).toBe(
      'round braid',
    );
    expect(value('choice', 'braid', imperial, { choices: ['bar', 'round braid'] })).toBe('not-a-choice');
    expect(value('yes_no', 'Y')).toBe('yes');
    expect(value('yes_no', 'FALSE')).toBe('no');
  });

  it.each(['a*b', 'what?', 'a~b', 'a|b', 'a\nb', 'x'.repeat(61)])('refuses %j as a name', (text) => {
    expect(value('key', text)).toBe('key-bad');
  });

  it('keeps to the bounds of the column', () => {
    expect(value('number', '0', imperial, { above: 0 })).toBe('out-of-range');
    expect(value('number', '0', imperial, { min: 0 })).toBe(0);
    expect(value('number', '6', imperial, { max: 6 })).toBe(6);
    expect(value('percent', '100', imperial, { below: 100 })).toBe('out-of-range');
  });

  it('gives a value or a fault for any text, and never throws', () => {
    fc.assert(
      fc.property(
        fc.string({ minLength: 1 }),
        fc.constantFrom(...numberKinds),
        fc.constantFrom(imperial, metric),
        (text, kind, settings) => {
          const reading = readCell(text, fieldOf('some', { kind, choices: ['one'] }), settings);
          if ('fault' in reading) expect(reading.fault.message).not.toBe('');
          else if (typeof reading.value === 'number') expect(Number.isFinite(reading.value)).toBe(true);
        },
      ),
    );
  });
});
