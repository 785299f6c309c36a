import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCsv } from '../../../engine/book/files/csvFile.ts';

const read = (text: string) => parseCsv('some.csv', text);
const ids = (text: string) => read(text).headings.map((heading) => heading.id);
const cells = (text: string) => read(text).rows.map((row) => row.cells);

describe('parseCsv', () => {
  it('reads commas, semicolons and tabs, whichever the headings use', () => {
    expect(cells('a,b\n1,2')).toEqual([['1', '2']]);
    expect(cells('a;b\n1,5;2')).toEqual([['1,5', '2']]);
    expect(cells('a\tb\n1,5\t2;3')).toEqual([['1,5', '2;3']]);
  });

  it('does not take a separator inside a quoted heading for one', () => {
    expect(ids('"a;b;c",d')).toEqual(['a;b;c', 'd']);
  });

  it('skips a byte-order mark and takes CRLF', () => {
    expect(ids('\uFEFFa,b\r\n1,2\r\n')).toEqual(['a', 'b']);
    expect(cells('\uFEFFa,b\r\n1,2\r\n')).toEqual([['1', '2']]);
  });

  it('keeps a newline in quotes in its cell', () => {
    expect(cells('a,b\n"one\ntwo",3')).toEqual([['one\ntwo', '3']]);
  });

  it('drops blank rows but counts them, as a spreadsheet program numbers them', () => {
    expect(read('a,b\n\n1,2\n,\n3,4\n').rows.map(({ row }) => row)).toEqual([3, 5]);
  });

  it('counts a row with a newline in it once', () => {
    expect(read('a,b\n"x\ny",1\nz,2').rows.map(({ row }) => row)).toEqual([2, 3]);
  });

  it('turns a heading into a column name, and takes a unit from it', () => {
    expect(ids(' Woven length (in),Pack-Price,Finished length, cm')).toEqual([
      'woven_length',
      'pack_price',
      'finished_length',
      'cm',
    ]);
    expect(read('Woven length (in)').headings[0]?.unit).toBe('in');
    expect(read('"Finished length, cm"').headings[0]).toMatchObject({ id: 'finished_length', unit: 'cm' });
    expect(read('name (short)').headings[0]?.unit).toBeUndefined();
  });

  it('reports a mark that is not closed, with its row, and nothing that follows from it', () => {
    const { problems, rows, torn } = read('a,b\n1,2\n"3,4\n5,6\n');
    expect(problems.map(({ code, where }) => [code, where.row])).toEqual([['csv-syntax', 3]]);
    expect(rows).toEqual([]);
    expect(torn).toBe(true);
  });

  it('leaves an inch sign within a cell alone', () => {
    expect(cells('a,b\n5/32",x\n"5/32""",y')).toEqual([
      ['5/32"', 'x'],
      ['5/32"', 'y'],
    ]);
  });

  it('reports a cell beyond the last heading', () => {
    expect(read('a,b\n1,2,3\n1,2,,\n').problems.map(({ code, where }) => [code, where.row])).toEqual([
      ['cell-surplus', 2],
    ]);
  });

  it('has no rows and no problems for no text', () => {
    expect(read('')).toMatchObject({ headings: [], rows: [], problems: [] });
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'ab1,;\t"\n\r \uFEFF') }), (text) => void read(text)),
    );
  });

  it('takes the first row that is not blank for the headings, and keeps the row numbers of the file', () => {
    const { headings, headingRow, rows } = read('\r\n;;\r\na;b\r\n1,5;2\r\n');
    expect(headings.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(headingRow).toBe(3);
    expect(rows).toEqual([{ row: 4, cells: ['1,5', '2'] }]);
  });

  it('refuses a file in another character set, at the row where it shows', () => {
    const { problems, rows, torn } = read('a,b\n1,2\ncaf\uFFFD,3\n');
    expect(problems.map(({ code, where }) => [code, where.row])).toEqual([['csv-syntax', 3]]);
    expect(rows).toEqual([]);
    expect(torn).toBe(true);
  });

  it('looks for no unit in a heading of endless length', () => {
    // Looked for in vain from each of its blanks and brackets, this would take minutes and meet the time limit of the run.
    expect(ids(`${' ('.repeat(500_000)}x,b\n`)[1]).toBe('b');
    expect(ids(`x${' ,'.repeat(900)}`)).toHaveLength(1);
    const endless = parseCsv('test.csv', `x${' ,'.repeat(100_000)}`);
    expect(endless.problems.map(({ code }) => code)).toEqual(['too-large']);
  });
});
