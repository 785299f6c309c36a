import { expect, test } from 'vitest';
import { demoBook } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';
import { writtenPages } from '../../support/writtenPages.ts';

const { book, page, plan } = await writtenPages();

test('a table keeps its headings and keys in sight and hides the grid', () => {
  expect(page('prices').views[0]).toMatchObject({
    state: 'frozen',
    xSplit: 2,
    ySplit: 2,
    showGridLines: false,
  });
  expect(page('rates').views[0]).toMatchObject({
    state: 'frozen',
    xSplit: 1,
    ySplit: 2,
    showGridLines: false,
  });
});

test('a table says what its columns mean, a form beside each figure', () => {
  const heading = page('materials').getCell('I2');
  expect(heading.text).toBe('Pack price, USD');
  expect(heading.note).toMatchObject({
    texts: [{ text: 'Before freight, duty and tax; in the currency beside it where there is one.' }],
  });
  expect(page('rates').getCell('A2').text).toBe('Figure');
  expect(page('rates').getCell('D3').text).toContain('Pay yourself too');
  expect(page('rates').getCell('C3').text).toBe('USD per hour');
});

test('a heading takes no more than three lines, and no column is narrower than its numbers', () => {
  for (const sheet of plan.sheets.filter(({ layout }) => layout === 'table')) {
    expect(page(sheet.id).getRow(2).height).toBeLessThanOrEqual(42);
    for (const at of sheet.columns.keys()) {
      expect(page(sheet.id).getColumn(at + 1).width).toBeGreaterThanOrEqual(8);
    }
  }
});

test('totals stand under their columns, with a word', () => {
  const sheet = plan.sheets.find(({ id }) => id === 'overheads');
  const last = 3 + (sheet?.rowCount ?? 0);
  expect(page('overheads').getCell(`A${last}`).text).toBe('Total');
  expect(page('overheads').getCell(`B${last}`).formula).toBe(`SUM(B3:B${last - 1})`);
});

test('one family of type, in two sizes', () => {
  const fonts = new Set<string>();
  book.eachSheet((each) =>
    each.eachRow((row) => row.eachCell(({ font }) => fonts.add(`${font?.name} ${font?.size}`))),
  );
  expect([...fonts].sort()).toEqual(['Arial 10', 'Arial 14']);
});

test('a row whose text wraps is as high as its lines, in every program that opens it', async () => {
  const families = `family,needs,take_up\nlong,nothing,${Array(40).fill('core').join(' + ')}\n`;
  const pages = await writtenPages(new Map([...demoBook('starter'), ['families.csv', families]]));
  const { plan, page } = pages;
  const sheet = plan.sheets.find(({ id }) => id === 'families');
  const rows = sheet?.columns.find(({ id }) => id === 'family')?.inputs ?? [];
  const heightOf = (family: string) => page('families').getRow(3 + rows.indexOf(family)).height;
  expect(heightOf('long')).toBeGreaterThan(40);
  expect(heightOf('measured')).toBeUndefined();
});

test('a name of thousands of letters wraps in a column that a screen can hold', async () => {
  const keys = { material: 'slate cord' };
  const long = await writtenPages(
    setCells(demoBook('starter'), 'materials.csv', keys, { name: 'W'.repeat(3900) }),
  );
  const materials = long.plan.sheets.find(({ id }) => id === 'materials');
  const at = materials?.columns.findIndex(({ id }) => id === 'name') ?? -1;
  expect(long.page('materials').getColumn(at + 1).width).toBeLessThan(70);
  expect(long.cell('materials', 'name', 0).alignment.wrapText).toBe(true);
  // Shorter columns stay on one line.
  expect(long.cell('materials', 'material', 0).alignment.wrapText).toBeUndefined();
  for (const { id } of long.plan.sheets)
    for (let column = 1; column <= long.page(id).columnCount; column += 1)
      expect(long.page(id).getColumn(column).width ?? 0).toBeLessThanOrEqual(255);
});

test('a sheet is printed with all its columns where it has records, and with its headings where it has none', () => {
  for (const sheet of plan.sheets.filter(({ layout }) => layout === 'table')) {
    const { printArea = '', fitToWidth = 0 } = page(sheet.id).pageSetup;
    const [, letters = ''] = /:([A-Z]+)/.exec(printArea.replaceAll('$', '')) ?? [];
    const last = page(sheet.id).getColumn(letters).number;
    if (sheet.rowCount > 0) expect(last, sheet.id).toBeGreaterThanOrEqual(sheet.columns.length);
    else expect(fitToWidth, sheet.id).toBe(1);
  }
  expect(page('products').pageSetup.fitToWidth).toBeGreaterThan(1);
});
