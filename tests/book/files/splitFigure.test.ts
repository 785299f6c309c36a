import { describe, expect, it } from 'vitest';
import { readTable } from '../../../engine/book/readTable.ts';
import { imperial, metric } from '../../support/settings.ts';
import { fieldOf, tableOf } from '../fieldOf.ts';

const schema = tableOf('things', [
  fieldOf('thing', { kind: 'key' }),
  fieldOf('pack', { kind: 'quantity' }),
  fieldOf('price', { kind: 'money', blank: '0' }),
  fieldOf('cord', { of: 'cords' }),
]);
const heads = 'thing,pack,price,cord\n';

const read = (text: string, settings = imperial) => readTable('things.csv', text, schema, settings);
const told = (text: string, settings = imperial) =>
  read(text, settings).problems.map(({ code, where, found }) => [code, where.row, where.column, found]);

describe('a figure that its own comma has split', () => {
  it('is told as that, once, and not as faults of the cells that it shifts', () => {
    const { problems, table } = read(`${heads}a,1,000 ft,61.00,red\nb,"1,000 ft",61.00,red\n`);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      code: 'cell-surplus',
      severity: 'error',
      where: { file: 'things.csv', row: 2, column: 'pack' },
      message:
        'The comma in “1,000 ft” splits it into two cells, “1” and “000 ft”, as it has no quotation marks.',
      mend: 'Write "1,000 ft" with quotation marks round it, or without its comma.',
    });
    // What stands behind it is read where it belongs, so that no other check stumbles over it.
    expect(table.columns.get('cord')).toEqual(['red', 'red']);
  });

  it('is told where nothing else looks wrong but one cell too many, even a blank one', () => {
    expect(told(`${heads}a,3,1,250.00,\nb,4,5,red\n`)).toEqual([['cell-surplus', 2, 'price', '1,250.00']]);
  });

  it('is told where the row ends early, so that it is not too long', () => {
    expect(told(`${heads}a,1,000 ft\n`)).toEqual([['cell-surplus', 2, 'pack', '1,000 ft']]);
  });

  it('is told twice where two figures of a row are split', () => {
    expect(told(`${heads}a,1,000 ft,2,500.00,red\n`)).toEqual([
      ['cell-surplus', 2, 'pack', '1,000 ft'],
      ['cell-surplus', 2, 'price', '2,500.00'],
    ]);
  });

  it('may be a decimal comma, where the book writes these; then nobody is told to leave it out', () => {
    const { problems } = read(`${heads}a,7,5 cm,61,red\n`, { ...metric, decimal: 'comma' });
    expect(problems.map(({ found, mend }) => [found, mend])).toEqual([
      ['7,5 cm', 'Write "7,5 cm" with quotation marks round it.'],
    ]);
  });

  it('may be a decimal comma where the book writes points, and is then told to be written with one', () => {
    const { problems, table } = read(`${heads}a,"1,000 ft",61,00,red\nb,7,5 ft,2,50,red\n`);
    expect(problems.map(({ where, found, mend }) => [where.row, where.column, found, mend])).toEqual([
      [2, 'price', '61,00', 'Write 61.00.'],
      [3, 'pack', '7,5 ft', 'Write 7.5 ft.'],
      [3, 'price', '2,50', 'Write 2.50.'],
    ]);
    expect(table.columns.get('cord')).toEqual(['red', 'red']);
    expect(told(`${heads}a,12,15,red,blue\n`)).toEqual([['cell-surplus', 2, undefined, 'blue']]);
  });

  it.each([
    ['two figures side by side', `${heads}a,12,150,red\n`],
    ['a comma at the end of every row', `${heads}a,12,150,red,\nb,13,250,red,\n`],
    ['blank headings at the end', `thing,pack,price,cord,,\na,12,150,red,,\nb,1,2,red\n`],
  ])('is not seen in %s', (_, text) => {
    expect(told(text)).toEqual([]);
  });

  it('is not blamed for a surplus that it does not explain', () => {
    expect(told(`${heads}a,12,150,red,blue\n`)).toEqual([['cell-surplus', 2, undefined, 'blue']]);
  });

  it('is not looked for between semicolons', () => {
    expect(told('thing;pack;price;cord\na;1;000 ft;61.00;red\n').map(([code]) => code)).toContain(
      'not-a-number',
    );
  });
});
