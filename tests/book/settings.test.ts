import { describe, expect, it } from 'vitest';
import { parseYaml } from '../../engine/book/files/yamlFile.ts';
import { readSettings } from '../../engine/book/settings.ts';

const read = (source: string) => readSettings(parseYaml('book.yaml', source));

describe('readSettings', () => {
  it('reads what is there', () => {
    expect(read('workshop: Ours\ncurrency: eur\ndecimal: Comma\nlength_unit: centimetres\n')).toEqual({
      settings: {
        workshop: 'Ours',
        currency: 'EUR',
        currencyDigits: 2,
        decimal: 'comma',
        lengthUnit: 'cm',
        cordUnit: 'm',
        weightUnit: 'g',
      },
      problems: [],
    });
  });

  it('takes inches and feet, and a point, where nothing is said', () => {
    expect(read('currency: USD').settings).toMatchObject({
      decimal: 'point',
      lengthUnit: 'in',
      cordUnit: 'ft',
    });
  });

  it('takes ounces beside inches and grams otherwise, unless the book says', () => {
    expect(read('currency: USD').settings.weightUnit).toBe('oz');
    expect(read('currency: EUR\nlength_unit: mm').settings.weightUnit).toBe('g');
    expect(read('currency: USD\nweight_unit: grams').settings.weightUnit).toBe('g');
    const { problems } = read('currency: USD\nweight_unit: stone');
    expect(problems.map(({ code, where }) => [code, where.column])).toEqual([
      ['not-a-choice', 'weight_unit'],
    ]);
  });

  it('knows currencies without a minor unit and with three digits', () => {
    expect(read('currency: JPY').settings.currencyDigits).toBe(0);
    expect(read('currency: KWD').settings.currencyDigits).toBe(3);
  });

  it('reports what it cannot use and goes on with stand-ins', () => {
    const { settings, problems } = read(
      'currency: dollars\ndecimal: dot\nlength_unit: [in]\ncord_unit: hands\n',
    );
    expect(settings).toMatchObject({ currency: 'USD', decimal: 'point', lengthUnit: 'in', cordUnit: 'ft' });
    expect(problems.map(({ where }) => [where.column, where.line])).toEqual(
      [
        ['length_unit', 3],
        ['currency', 1],
        ['cord_unit', 4],
        ['decimal', 2],
      ].sort((one, other) => order.indexOf(String(one[0])) - order.indexOf(String(other[0]))),
    );
  });
});

const order = ['currency', 'length_unit', 'cord_unit', 'weight_unit', 'decimal'];
