import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fingerprint } from '../../engine/book/files/fingerprint.ts';
import { isOrigin, originCells, readOrigin } from '../../engine/origin/originCells.ts';
import { originOf } from '../../engine/origin/originOf.ts';
import { fromChunks, toChunks } from '../../engine/origin/originText.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';

test('a value comes back from its texts exactly, and no text is longer than a cell', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.double({ noNaN: true, noDefaultInfinity: true }),
          fc.constant(null),
        ),
      ),
      (value) => {
        const chunks = toChunks(value);
        for (const chunk of chunks) expect(chunk).toMatch(/^[!-~](?:[ -~]*[!-~])?$/);
        // JSON knows one zero.
        expect(fromChunks(chunks)).toEqual(value.map((each) => (Object.is(each, -0) ? 0 : each)));
      },
    ),
  );
  const long = [' a  b_x000D_'.repeat(20_000)];
  const chunks = toChunks(long);
  expect(chunks.length).toBeGreaterThan(5);
  for (const chunk of chunks) {
    expect(chunk.length).toBeLessThanOrEqual(30_000);
    expect(chunk).not.toMatch(/_x|^ | $| {2}/);
  }
  expect(fromChunks(chunks)).toEqual(long);
});

describe.each(demoBooks)('the origin of the book %s', (name) => {
  const book = demoBook(name);
  const { plan } = pricedBook(book);
  const origin = originOf(plan, { version: '1.2.3', date: '2026-03-02', files: book });
  const cells = originCells(origin);

  test('comes back from its cells', () => {
    expect(isOrigin(cells)).toBe(true);
    expect(readOrigin(cells)).toEqual(origin);
  });

  test('has the value of every input that the book keeps', () => {
    const materials = origin.sheets.find(({ id }) => id === 'materials');
    expect(materials?.table).toBe('materials.csv');
    const held = materials?.columns.filter(({ file }) => file !== undefined).map(({ id }) => id) ?? [];
    const sheet = plan.sheets.find(({ id }) => id === 'materials');
    materials?.rows.forEach(({ values }, row) => {
      expect(values).toEqual(held.map((id) => sheet?.columns.find((each) => each.id === id)?.inputs?.[row]));
    });
    expect(materials?.rows).toHaveLength(sheet?.rowCount ?? -1);
  });

  test('is told to be damaged where a cell was changed, and later where its format is unknown', () => {
    const changed = cells.map((row, at) => (at === 5 ? [...row.slice(0, 2), `${row[2]} `] : row));
    expect(readOrigin(changed)).toBe('damaged');
    expect(readOrigin(cells.slice(0, -1))).toBe('damaged');
    expect(readOrigin([cells[0] ?? [], ['sennit origin', '99', ''], ...cells.slice(2)])).toBe('later');
  });

  test('is told to be damaged where another hand wrote it, though its fingerprint is right', () => {
    const rows = (change: (row: string[], at: number) => string[][]): string[][] => {
      const matter = cells.slice(2).flatMap((row, at) => change([...row], at));
      const print = fingerprint(matter.map((row) => row.join('\t')).join('\n'));
      return [[...(cells[0] ?? [])], ['sennit origin', '1', print], ...matter];
    };
    const sheetAt = 1;
    expect(readOrigin(rows((row) => [row]))).toEqual(origin);
    for (const [what, written] of Object.entries({
      nothing: rows(() => []),
      'no settings': rows((row, at) => [
        at === 0 ? ['book', '', '{"version":"1","date":"","files":{}}'] : row,
      ]),
      'a head that is no JSON': rows((row, at) => [at === 0 ? ['book', '', '{'] : row]),
      'a sheet of unknown shape': rows((row, at) => [at === sheetAt ? ['sheet', 'x', '{"id":"x"}'] : row]),
      'a row before any sheet': rows((row, at) => (at === sheetAt ? [['row', 'x:1', '[1]'], row] : [row])),
      'values that no cell has': rows((row, at) => [
        row[0] === 'row' && at > sheetAt ? ['row', row[1] ?? '', '[{}]'] : row,
      ]),
      'another word': rows((row, at) => [at === sheetAt ? ['page', ...row.slice(1)] : row]),
    }))
      expect(readOrigin(written), what).toBe('damaged');
  });

  test('does not call a file home that was not the book’s own', () => {
    const foreign = originOf(plan, { version: '1', date: '2026-03-02', foreign: ['materials.csv'] });
    const materials = foreign.sheets.find(({ id }) => id === 'materials');
    expect(materials?.named).toBe(false);
    expect(materials?.rows).toEqual([]);
  });
});
