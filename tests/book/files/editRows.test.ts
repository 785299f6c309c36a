import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCsv } from '../../../engine/book/files/csvFile.ts';
import { editRows } from '../../../engine/book/files/editRows.ts';

const columns = ['material', 'length', 'count'];
const nothing = { set: new Map(), remove: new Set<number>(), add: [] };
const row = (cells: Record<string, string>): ReadonlyMap<string, string> => new Map(Object.entries(cells));

describe('editRows', () => {
  const text =
    '\uFEFF\r\nmaterial;Length (m);my own\r\n"tar line" ;12,5; keep me\r\n\r\nsand line;7;"a ""b"""\r\nsand line;3;x';

  it('changes nothing where nothing is asked', () => {
    expect(editRows(text, nothing, columns)).toBe(text);
  });

  it('changes cells by the row numbers that a spreadsheet shows, and leaves the rest to the letter', () => {
    const edited = editRows(text, { ...nothing, set: new Map([[5, row({ length: '6,25' })]]) }, columns);
    expect(edited).toBe(text.replace(';7;', ';6,25;'));
  });

  it('removes rows with their line, the last one too', () => {
    const without = (...rows: number[]) => editRows(text, { ...nothing, remove: new Set(rows) }, columns);
    expect(without(3)).toBe(text.replace('"tar line" ;12,5; keep me\r\n', ''));
    expect(without(6)).toBe(text.replace('sand line;3;x', ''));
  });

  it('adds rows in the manner of the file, after a last line that is open or removed', () => {
    const add = [row({ material: 'tide line', length: '4' })];
    expect(editRows(text, { ...nothing, add }, columns)).toBe(`${text}\r\ntide line;4;`);
    expect(editRows(text, { ...nothing, add, remove: new Set([6]) }, columns)).toBe(
      // The cell above is in quotes because it must be, and this one need not.
      text.replace('sand line;3;x', 'tide line;4;\r\n'),
    );
    const quoted = '"material","length"\n"tar line","12"\n';
    expect(editRows(quoted, { ...nothing, add }, columns)).toBe(`${quoted}"tide line","4"\n`);
  });

  it('adds a heading only where a column is missing', () => {
    const set = new Map([[3, row({ cost_set: '0,2' })]]);
    expect(editRows('material;length\r\n\r\ntar line;2\r\n', { ...nothing, set }, columns)).toBe(
      'material;length;cost_set\r\n\r\ntar line;2;0,2\r\n',
    );
  });

  it('fills up a short row, with blanks up to the column that is set', () => {
    const set = new Map([[2, row({ count: '3' })]]);
    expect(editRows('material,length,count\ntar line\n', { ...nothing, set }, columns)).toBe(
      'material,length,count\ntar line,,3\n',
    );
  });

  it('fills a blank last cell and adds a column beyond it, each in its place', () => {
    const set = new Map([[2, row({ length: '2', cost_set: '0.2' })]]);
    expect(editRows('material,length\ntar line,\n', { ...nothing, set }, columns)).toBe(
      'material,length,cost_set\ntar line,2,0.2\n',
    );
  });

  it('leaves a cell alone that says so already, blanks and quotes and all', () => {
    const as = 'material,length\n tar line ,"12"\n';
    const set = new Map([[2, row({ material: 'tar line', length: '12' })]]);
    expect(editRows(as, { ...nothing, set }, columns)).toBe(as);
  });

  it('adds to a table that has its headings only, and not even a line end', () => {
    const add = [row({ material: 'tide line', length: '4' })];
    expect(editRows('material,length', { ...nothing, add }, columns)).toBe('material,length\ntide line,4');
    expect(editRows('material,length\r\n', { ...nothing, add }, columns)).toBe(
      'material,length\r\ntide line,4\r\n',
    );
  });

  it('makes a table of an empty file', () => {
    expect(editRows('', { ...nothing, add: [row({ material: 'a', length: '1,5' })] }, columns, ';')).toBe(
      'material;length;count\na;1,5;\n',
    );
  });

  it('leaves what a reader reads in every other row as it was', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', ' ', ',', ';', '"', '\n', '1'), maxLength: 6 });
    const quoted = (each: string): string => `"${each.replaceAll('"', '""')}"`;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 6 }),
        fc.constantFrom('\n', '\r\n'),
        fc.boolean(),
        fc.array(fc.constantFrom('keep', 'set', 'remove'), { minLength: 6, maxLength: 6 }),
        fc.nat(2),
        (cells, lineEnd, isOpen, acts, more) => {
          const source = [
            'material,length,count',
            ...cells.map(([one, other], at) => `m${at},${quoted(one)},${quoted(other)}`),
          ].join(lineEnd);
          const book = isOpen ? source : source + lineEnd;
          const read = (from: string): (readonly string[])[] =>
            parseCsv('stock.csv', from).rows.map((each) => each.cells);
          const numbers = cells.map((_, at) => at + 2);
          const chosen = (act: string): number[] => numbers.filter((_, at) => acts[at] === act);
          const edited = editRows(
            book,
            {
              set: new Map(chosen('set').map((number) => [number, row({ length: 'new, one' })])),
              remove: new Set(chosen('remove')),
              add: Array.from({ length: more }, (_, at) => row({ material: `new ${at}`, length: '1' })),
            },
            columns,
          );
          const wanted = read(book).flatMap((each, at) =>
            acts[at] === 'remove' ? [] : [acts[at] === 'set' ? [each[0], 'new, one', each[2]] : each],
          );
          const added = Array.from({ length: more }, (_, at) => [`new ${at}`, '1', '']);
          expect(read(edited)).toEqual([...wanted, ...added]);
        },
      ),
      { numRuns: 300 },
    );
  });
});
