import { describe, expect, test } from 'vitest';
import { workbook } from '../../../engine/export/workbook.ts';
import { spareLines, spareName } from '../../../engine/origin/origin.ts';
import { columnLetters } from '../../../engine/sheets/address.ts';
import { demoBook, demoBooks, pricedBook } from '../../support/books.ts';
import { type WrittenBook, writtenBook } from '../../support/xlsxParts.ts';

/** Text of a cell, through the shared strings. */
function texts({ parts, sheets }: WrittenBook, title: string): Map<string, string> {
  const shared = [...(parts.get('xl/sharedStrings.xml') ?? '').matchAll(/<si>([\s\S]*?)<\/si>/g)].map(
    (each) => [...(each[1] ?? '').matchAll(/<t[^>]*>([^<]*)<\/t>/g)].map((part) => part[1] ?? '').join(''),
  );
  const cells = sheets.get(title)?.cells ?? new Map();
  return new Map(
    [...cells].flatMap(([address, { type, cached }]) =>
      type === 's' ? [[address, shared[Number(cached)] ?? ''] as const] : [],
    ),
  );
}

describe.each(demoBooks)('lines for new rows in the workbook of the book %s', (name) => {
  const { plan, values } = pricedBook(demoBook(name));
  const written = workbook(plan, values, { date: '2026-03-02', version: '0.0.0' }).then(writtenBook);

  test('stand under every table that the maker keeps, open where the book has a column', async () => {
    const book = await written;
    for (const id of ['materials', 'products', 'parts', 'work', 'overheads', 'channels', 'fees', 'sizes']) {
      const sheet = plan.sheets.find((each) => each.id === id);
      if (sheet === undefined) throw new Error(`no sheet ${id}`);
      const { cells, xml } = book.sheets.get(sheet.title) ?? { cells: new Map(), xml: '' };
      const names = new Map([...texts(book, sheet.title)].map(([address, text]) => [text, address]));
      const hidden = columnLetters(sheet.columns.length);
      for (let line = 1; line <= spareLines; line += 1) {
        const row = names.get(spareName(id, line))?.replace(hidden, '') ?? '';
        expect(Number(row), `${id}, line ${line}`).toBeGreaterThan(2 + sheet.rowCount);
        sheet.columns.forEach((column, at) => {
          const cell = cells.get(`${columnLetters(at)}${row}`);
          const open = cell !== undefined && book.locked[cell.style] === false;
          expect(open, `${id}.${column.id}`).toBe(column.kept !== undefined);
          expect(cell?.formula).toBeUndefined();
        });
      }
      expect(xml).toMatch(new RegExp(`<col min="${sheet.columns.length + 1}"[^>]*hidden="1"`));
    }
  });

  test('are in no range of a formula, and outside of what is printed', async () => {
    const book = await written;
    const areas = [
      ...(book.parts.get('xl/workbook.xml') ?? '').matchAll(/&apos;([^&]+)&apos;!\$A\$\d+:\$[A-Z]+\$(\d+)</g),
    ];
    expect(areas.length).toBeGreaterThan(10);
    for (const sheet of plan.sheets.filter(({ layout }) => layout === 'table')) {
      const end = 2 + Math.max(sheet.rowCount, 1);
      const totals = sheet.columns.some(({ total }) => total !== undefined) ? 1 : 0;
      const printed = areas.find(([, title]) => title === sheet.title)?.[2];
      expect(Number(printed), sheet.title).toBeLessThanOrEqual(end + totals);
    }
    const materials = plan.sheets.find(({ id }) => id === 'materials');
    const last = 2 + (materials?.rowCount ?? 0);
    for (const { cells } of book.sheets.values())
      for (const { formula } of cells.values())
        for (const [, end] of (formula ?? '').matchAll(/Materials!\$[A-Z]+\$3:\$[A-Z]+\$(\d+)/g))
          expect(Number(end)).toBe(last);
  });

  test('offer the drop-downs of their column', async () => {
    const book = await written;
    const sheet = plan.sheets.find(({ id }) => id === 'products');
    const at = sheet?.columns.findIndex(({ id }) => id === 'over_cord') ?? -1;
    const letters = columnLetters(at);
    const rules = [
      ...(book.sheets.get('Products')?.xml ?? '').matchAll(/<dataValidation [^>]*sqref="([^"]+)"/g),
    ];
    const own = rules.filter(([, range]) => new RegExp(`^${letters}\\d`).test(range ?? ''));
    expect(own).toHaveLength(2);
  });
});
