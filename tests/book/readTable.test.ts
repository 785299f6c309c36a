import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { neededColumns } from '../../engine/book/files/headingPositions.ts';
import { readTable } from '../../engine/book/readTable.ts';
import { imperial, metric } from '../support/settings.ts';
import { fieldOf, tableOf } from './fieldOf.ts';

const schema = tableOf('things', [
  fieldOf('thing', { kind: 'key' }),
  fieldOf('cord', { required: true }),
  fieldOf('other'),
  fieldOf('length', { kind: 'length', blank: '12 in', blankMetric: '30 cm' }),
  fieldOf('price', { kind: 'money', blank: '0.5' }),
]);

const codes = (text: string) =>
  readTable('things.csv', text, schema, imperial).problems.map(({ code, severity, where }) => [
    code,
    severity,
    where.row,
    where.column,
  ]);

describe('readTable', () => {
  it('finds columns by heading, in any order', () => {
    const { table, problems } = readTable('things.csv', 'Cord,Thing\nred,a\nblue,b\n', schema, imperial);
    expect(problems).toEqual([]);
    expect(table.columns.get('thing')).toEqual(['a', 'b']);
    expect(table.columns.get('cord')).toEqual(['red', 'blue']);
    expect(table.places).toEqual([
      { file: 'things.csv', row: 2 },
      { file: 'things.csv', row: 3 },
    ]);
  });

  it('fills defaults in the system of the book, and reads them with a point whatever the book has', () => {
    const blank = 'thing,cord\na,red\n';
    expect(readTable('things.csv', blank, schema, imperial).table.columns.get('length')).toEqual([12]);
    const read = readTable('things.csv', blank, schema, metric).table;
    expect(read.columns.get('length')).toEqual([30]);
    expect(read.columns.get('price')).toEqual([0.5]);
  });

  it('keeps unknown columns alone, and reports them', () => {
    expect(codes('thing,cord,mood\na,red,good\n')).toEqual([['column-unknown', 'watch', 1, 'mood']]);
  });

  it('says that there is nothing more to fill in where every column is there', () => {
    const all = 'thing,cord,other,length,price,mood\na,red,b,1,2,good\n';
    const { problems } = readTable('things.csv', all, schema, imperial);
    expect(problems.map(({ code, accepted }) => [code, accepted])).toEqual([
      ['column-unknown', 'nothing more: all columns are there'],
    ]);
  });

  it('tells of cells that no heading stands over, and of nothing where the column is empty', () => {
    expect(codes('thing,,cord\na,x,red\n')).toEqual([['column-unknown', 'error', 1, undefined]]);
    expect(codes('thing,cord,,other\na,red,,x\nb,blue\n')).toEqual([]);
  });

  it('reports a missing column once, however many rows there are', () => {
    expect(codes(`thing,price\n${'a,1\n'.repeat(30)}`)).toEqual([['column-missing', 'error', 1, 'cord']]);
  });

  it('tells only the missing heading where all cells stand under the wrong ones', () => {
    const { problems, torn, table } = readTable(
      'things.csv',
      'thing,other,length\na,red,x,8 in\nb,blue,y,9 in\n',
      schema,
      imperial,
    );
    expect(problems.map(({ code, where }) => [code, where.column])).toEqual([['column-missing', 'cord']]);
    expect(problems[0]?.mend).toContain('Put the heading cord back over its cells.');
    // Names of the table are not known then, so that no other table may call them unknown.
    expect([torn, table.rowCount]).toEqual([true, 0]);
  });

  it('tells a missing column before the faults of cells, where only some rows are too long', () => {
    expect(codes('thing,length\na,8 in\nb,long\nc,9 in,red\n')).toEqual([
      ['column-missing', 'error', 1, 'cord'],
      ['cell-surplus', 'error', 4, undefined],
      ['not-a-measure', 'error', 3, 'length'],
    ]);
  });

  it('takes a column without a heading for the one that is missing, and tells both as one', () => {
    const { problems } = readTable('things.csv', 'thing,,price\na,red,1\n', schema, imperial);
    expect(problems.map(({ code }) => code)).toEqual(['column-missing']);
    expect(problems[0]?.mend).toContain('Column 2 has cells but no heading: write cord there');
  });

  it('says that there are no headings where the first row is a thing', () => {
    const { problems } = readTable('things.csv', 'a,red,8 in\nb,blue,9 in\n', schema, imperial);
    expect(problems.map(({ code, found }) => [code, found])).toEqual([
      ['column-missing', '“a”, “red”, “8 in”'],
    ]);
    expect(problems[0]?.accepted).toBe('a row of headings, at least thing, cord');
  });

  it('takes a heading with a typing mistake and the column that is missing for one slip', () => {
    const { problems } = readTable('things.csv', 'thing,crod\na,red\n', schema, imperial);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.mend).toBe('Change the heading “crod” to cord.');
  });

  it('reports every faulty cell', () => {
    expect(
      codes('thing,cord,length,price\na,,two,1\nb,red,1,x\n')
        .map(([code]) => code)
        .sort(),
    ).toEqual(['cell-missing', 'not-a-measure', 'not-a-number']);
  });

  it('keeps a name that cannot be used, so that others are not called unknown', () => {
    expect(
      readTable('things.csv', 'thing,cord\na?,red\n', schema, imperial).table.columns.get('thing'),
    ).toEqual(['a?']);
  });

  it('remembers which quantities had a length unit', () => {
    const quantity = tableOf('things', [
      fieldOf('thing', { kind: 'key' }),
      fieldOf('pack', { kind: 'quantity' }),
    ]);
    const { withUnit } = readTable('things.csv', 'thing,pack\na,3\nb,3 ft\n', quantity, imperial);
    expect([...(withUnit.get('pack') ?? [])]).toEqual([[1, 'ft']]);
  });

  it('takes a unit of weight from a heading, and only over a column of weights', () => {
    const weighed = tableOf('things', [
      fieldOf('thing', { kind: 'key' }),
      fieldOf('weight', { kind: 'weight_per_unit' }),
      fieldOf('price', { kind: 'money' }),
    ]);
    const { table, withUnit } = readTable(
      'things.csv',
      'thing,weight (lb/8 ft)\na,1\nb,3 oz\n',
      weighed,
      imperial,
    );
    expect(table.columns.get('weight')).toEqual([2, 3]);
    expect([...(withUnit.get('weight') ?? [])]).toEqual([[0, 'by length']]);
    const { problems } = readTable('things.csv', 'thing,price (oz)\na,1\n', weighed, imperial);
    expect(problems.map(({ code, where }) => [code, where.column])).toEqual([
      ['column-unknown', 'price (oz)'],
    ]);
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'thing,cord\n"12 in;?|') }),
        (text) => void readTable('things.csv', text, schema, imperial),
      ),
    );
  });
});

describe('neededColumns', () => {
  it('are the names of the rows and what has no default', () => {
    expect(neededColumns(schema)).toEqual(['thing', 'cord']);
  });

  it('refuses cells that no cell of a workbook would hold, or that no figure needs', () => {
    const text = `thing,cord,other,length\na,red,${'x'.repeat(4001)},8 in\nb,red,y,${'8 '.repeat(101)}in\n`;
    const { problems } = readTable('things.csv', text, schema, imperial);
    expect(problems.map(({ code, where }) => [code, where.row, where.column])).toEqual([
      ['cell-too-long', 2, 'other'],
      ['cell-too-long', 3, 'length'],
    ]);
    expect(problems[0]?.found).toHaveLength(61);
    const longest = `thing,cord,other\na,red,${'x'.repeat(4000)}\n`;
    expect(readTable('things.csv', longest, schema, imperial).problems).toEqual([]);
  });

  it('names the row in which the headings stand', () => {
    const { problems } = readTable('things.csv', '\nthing,price\na,1\n', schema, imperial);
    expect(problems.map(({ code, where }) => [code, where.row])).toEqual([['column-missing', 2]]);
  });
});
