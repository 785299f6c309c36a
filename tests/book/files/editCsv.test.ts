import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCsv } from '../../../engine/book/files/csvFile.ts';
import { editCsv } from '../../../engine/book/files/editCsv.ts';

const set = (text: string, key: string, cells: Record<string, string>, separator?: ',' | ';'): string =>
  editCsv(text, 'weave', key, new Map(Object.entries(cells)), separator).text;

describe('editCsv', () => {
  it('changes one cell and nothing else', () => {
    const text = '\uFEFFweave;Name ;pitch_ratio\r\n\r\n"bar"; x ;1,17\r\nown ;"a ""b""";"1,2"\r\n;;\r\n';
    expect(set(text, 'Own', { pitch_ratio: '1,31' })).toBe(text.replace('"1,2"', '"1,31"'));
    expect(set(text, 'bar', { pitch_ratio: '1,31' })).toBe(text.replace('1,17', '1,31'));
  });

  it('tells what stood there', () => {
    const edited = editCsv('weave,angle\nbraid, 38 \n', 'weave', 'braid', new Map([['angle', '39']]));
    expect(edited).toEqual({ text: 'weave,angle\nbraid,39\n', before: new Map([['angle', '38']]) });
  });

  it('fills up a short row, and adds a heading only where one is missing', () => {
    expect(set('weave,name,angle\nbraid\n', 'braid', { angle: '39' })).toBe('weave,name,angle\nbraid,,39\n');
    expect(set('weave,name\nbar,Bar\nbraid,B\n', 'braid', { angle: '39' })).toBe(
      'weave,name,angle\nbar,Bar\nbraid,B,39\n',
    );
  });

  it('fills a blank last cell and adds a column beyond it, each in its place', () => {
    const cells = new Map([
      ['pitch', '1.2'],
      ['angle', '3'],
    ]);
    expect(editCsv('weave,pitch\nbar,\n', 'weave', 'bar', cells).text).toBe('weave,pitch,angle\nbar,1.2,3\n');
  });

  it('adds a row in the manner of the file: separator, quotes, line ends', () => {
    expect(set('weave\tangle\r\n"bar"\t\r\n', 'braid', { angle: '39' })).toBe(
      'weave\tangle\r\n"bar"\t\r\n"braid"\t39\r\n',
    );
    expect(set('weave,angle\nbar,', 'braid', { angle: '39' })).toBe('weave,angle\nbar,\nbraid,39');
    expect(set('weave,angle', 'braid', { angle: '39' })).toBe('weave,angle\nbraid,39');
  });

  it('leaves columns that nothing is said of blank in a new row, and passes over rows too short for a key', () => {
    expect(set('weave,name,angle\nbar,Bar,38\n', 'braid', { angle: '39' })).toBe(
      'weave,name,angle\nbar,Bar,38\nbraid,,39\n',
    );
    expect(set('angle,weave\n38\n40,braid\n', 'braid', { angle: '39' })).toBe('angle,weave\n38\n39,braid\n');
  });

  it('quotes what holds the separator', () => {
    expect(set('weave,angle\nbar,1\n', 'bar', { angle: '1,5' })).toBe('weave,angle\nbar,"1,5"\n');
  });

  it('makes a table of an empty file', () => {
    expect(set('', 'bar', { angle: '1,5' }, ';')).toBe('weave;angle\nbar;1,5\n');
    expect(set(' \n', 'bar', { angle: '1.5' })).toBe('weave,angle\nbar,1.5\n');
  });

  it('leaves what a reader reads in every other cell as it was', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', ' ', ',', ';', '"', '\n', '1'), maxLength: 6 });
    const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 5 }),
        fc.constantFrom('\n', '\r\n'),
        fc.nat(4),
        (rows, lineEnd, pick) => {
          const at = pick % rows.length;
          const text = [
            'weave,name,angle',
            ...rows.map(([name, angle], row) => `w${row},${quoted(name)},${quoted(angle)}`),
          ].join(lineEnd);
          const read = (source: string): string[][] =>
            parseCsv('weaves.csv', source).rows.map(({ cells }) => [...cells]);
          const wanted = read(text).map((cells, row) => (row === at ? [cells[0], cells[1], 'new'] : cells));
          expect(read(set(text, `w${at}`, { angle: 'new' }))).toEqual(wanted);
        },
      ),
    );
  });
});
