import { describe, expect, test } from 'vitest';
import { demoBook } from '../support/books.ts';
import { cell, changed, page, rowOf, spareRow, takenIn, workbookOf } from '../support/takein.ts';

const starter = demoBook('starter');

/** Lines of a file that are not what they were. */
function newLines(before: string | undefined, after: string | undefined): string[] {
  const old = (before ?? '').split('\n');
  return (after ?? '').split('\n').filter((line) => !old.includes(line));
}

describe('what comes home is written as a person would beside its neighbours', () => {
  test('in their unit, quotes, thousands and digits, and what was typed with a unit as it was typed', async () => {
    const bytes = await changed(await workbookOf(starter), (book) => {
      const sheet = page(book, 'Materials');
      const at = (name: string, heading: string): { value: unknown } =>
        cell(sheet, rowOf(sheet, name), heading);
      const pack = 'Pack holds, ft or pieces';
      // 5/32" stands there, in quotes.
      at('cream cord', 'Diameter, mm').value = 4.1;
      at('river cord', pack).value = 1000;
      at('ochre cord', pack).value = '30 m';
      // 30 m as a formula of somebody's would have worked it out.
      at('rust fine', pack).value = 30 / 0.3048;
      at('coal cord', 'Diameter, mm').value = 12.7;
      const row = spareRow(sheet);
      const added = {
        Material: 'dune cord',
        Name: 'Braided cord, pale',
        'Sold by': 'length',
        'Diameter, mm': 4.1,
      };
      for (const [heading, value] of Object.entries({ ...added, [pack]: 2000, 'Pack price, USD': 61.5 }))
        cell(sheet, row, heading).value = value;
    });
    const report = takenIn(starter, bytes);
    expect(report.problems).toEqual([]);
    expect(newLines(starter.get('materials.csv'), report.files.get('materials.csv'))).toEqual([
      'cream cord,Braided cord 4 mm,length,cream,4.1 mm,"1,000 ft",58.00,5.50,,,5,type III,6.1 g/m',
      'river cord,Braided cord 4 mm,length,river blue,4 mm,"1,000 ft",9.40,0.90,,,6,type III,',
      'coal cord,Braided cord 4 mm,length,coal,12.7 mm,"1,000 ft",56.00,5.50,,,4,type III,',
      'ochre cord,Braided cord 4 mm,length,ochre,4 mm,30 m,9.40,0.90,,,6,type III,',
      'rust fine,Braided cord 2 mm,length,rust,2 mm,30 m,5.20,0.60,,,6,,1.6 g/m',
      'dune cord,"Braided cord, pale",length,,4.1 mm,"2,000 ft",61.50,,,,,,',
    ]);
    // Taken in once more, the same workbook has nothing new to say.
    const now = new Map([...starter, ...report.files]);
    expect(takenIn(now, bytes)).toMatchObject({ problems: [], changes: [], conflicts: [] });
  });

  test('in quotes where its file has all of them so', async () => {
    const quoted = new Map([
      ...starter,
      ['overheads.csv', (starter.get('overheads.csv') ?? '').replace(/^insurance,48,/m, '"insurance","48",')],
    ]);
    const bytes = await changed(await workbookOf(quoted), (book) => {
      const sheet = page(book, 'Overheads');
      sheet.getCell(`B${rowOf(sheet, 'insurance')}`).value = 52;
    });
    expect(newLines(quoted.get('overheads.csv'), takenIn(quoted, bytes).files.get('overheads.csv'))).toEqual([
      expect.stringMatching(/^"insurance","52",/),
    ]);
  });

  test('texts of two lines and with blanks at their ends are texts', async () => {
    const bytes = await changed(await workbookOf(starter), (book) => {
      const sheet = page(book, 'Materials');
      cell(sheet, 3, 'Name').value = 'Braided cord 4 mm   ';
      cell(sheet, 4, 'Name').value = 'of two\nlines';
    });
    const report = takenIn(starter, bytes);
    expect(report.changes.map(({ row, after }) => [row, after])).toEqual([['rust cord', 'of two\nlines']]);
    expect(report.files.get('materials.csv')).toContain('rust cord,"of two\nlines",length');
  });
});
