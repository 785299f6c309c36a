import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { NumberKind } from '../../engine/book/measures/kinds.ts';
import { readField } from '../../engine/book/readField.ts';
import type { FieldSchema } from '../../engine/book/schema.ts';
import { sameValue } from '../../engine/takein/compare/sameValue.ts';
import { plainNumber } from '../../engine/takein/plainNumber.ts';
import { valueText } from '../../engine/takein/valueText.ts';
import { imperial as inches, metric } from '../support/settings.ts';

function written(
  value: number,
  kind: NumberKind,
  model: string,
  settings = inches,
  headingUnit?: string,
): string | undefined {
  const field: FieldSchema = { id: 'figure', kind, required: false };
  const manner = headingUnit === undefined ? { model } : { model, headingUnit };
  const told = valueText(value, field, settings, manner, { file: 'test' });
  return 'text' in told ? told.text : undefined;
}

describe('a value is written as what stood there', () => {
  test.each([
    [8.25, 'length', '8 in', '8.25 in'],
    [7.75, 'length', '7 1/2 in', '7 3/4 in'],
    [0.125, 'length', '5/32"', '1/8"'],
    [8.25, 'length', '8', '8.25'],
    [62, 'money', '61.00', '62.00'],
    [62.5, 'money', 'USD 61.00', 'USD 62.50'],
    [1250, 'quantity', '1,000 ft', '1,250 ft'],
    [12, 'quantity', '10 pcs', '12 pcs'],
    [0.275, 'percent', '24', '27.5'],
    [0.275, 'percent', '24 %', '27.5 %'],
    [0.005, 'percent', '2', '0.5 %'],
    [12.5, 'minutes', '12 min', '12.5 min'],
    [3, 'count', '2', '3'],
    [0.0000001, 'number', '1', '0.0000001'],
  ] as const)('%d as %s after “%s” is “%s”', (value, kind, model, text) => {
    expect(written(value, kind, model)).toBe(text);
  });

  test('with the decimal mark of the book, and the unit of the heading', () => {
    expect(written(8.25, 'length', '8 cm', metric)).toBe('8,25 cm');
    expect(written(61.5, 'money', '58,00', metric)).toBe('61,50');
    expect(written(8.5, 'length', '85', metric, 'mm')).toBe('85');
    expect(written(2.54, 'length', '', metric, 'in')).toBe('1');
  });

  test('and reads as the same value again, whatever it is and whatever stood there', () => {
    const kinds = [
      'money',
      'percent',
      'number',
      'length',
      'cord',
      'fine',
      'quantity',
      'weight',
      'weight_per_unit',
      'force',
      'minutes',
      'hours',
    ] as const;
    const models = [
      '',
      '8 in',
      '7 1/2 in',
      '20 cm',
      '5 ft 6 in',
      '12 g',
      '1 lb 4 oz',
      '6.6 g/m',
      '6,6 g/m',
      '225 ft/lb',
      '550 lbf',
      '1,000',
      '1.000',
      '24 %',
      '12 min',
      'words',
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.constantFrom(...models),
        fc.constantFrom(inches, metric),
        fc.constantFrom(undefined, 'in', 'mm'),
        fc
          .double({ min: -1e9, max: 1e9, noNaN: true })
          .map((each) => (Math.abs(each) < 1e-9 ? 0 : Number(each.toPrecision(15)))),
        (kind, model, settings, unit, value) => {
          const heading = ['length', 'cord', 'fine', 'quantity'].includes(kind) ? unit : undefined;
          const text = written(value, kind, model, settings, heading);
          expect(text).toBeDefined();
          const field: FieldSchema = { id: 'figure', kind, required: false };
          const read = readField(text ?? '', field, settings, { file: 'test' }, [], heading);
          expect(sameValue(read.value, value)).toBe(true);
        },
      ),
    );
  });
});

test('a number in plain digits is the number, and has no exponent', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      const text = plainNumber(value, 'point');
      expect(text).toMatch(/^-?\d+(\.\d+)?$/);
      expect(Number(text)).toBe(value === 0 ? 0 : value);
    }),
  );
});
