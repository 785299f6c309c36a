import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { monthFront } from '../../engine/export/pages/monthFront.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { demoBook, demoBooks } from '../support/books.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { monthOf } from '../support/monthSource.ts';
import { differences, planCells, readable, wrongValues } from '../support/planCells.ts';
import { tradeBook } from '../support/tradeBook.ts';

const about = { date: '2026-11-03', version: '0.0.0', front: monthFront('October 2026', 'weighted average') };

describe.each(demoBooks)('October of the demo book %s', (name) => {
  const month = monthOf(demoBook(name), '2026-10');

  test('both engines say the same of every cell', () => {
    const found = disagreements(month.plan, evaluate(month.plan), month.values);
    expect(found.map(({ sheet, column, row }) => `${sheet.id}.${column.id} ${row}`)).toEqual([]);
  });

  test('is well, has its accounts, and has something on every sheet', () => {
    expect(month.problems).toEqual([]);
    for (const id of ['sums', 'accounts', 'negative'])
      expect(String(month.values.get('start', id, 0))).toMatch(/^all well/);
    const empty = month.plan.sheets.filter(({ rowCount }) => rowCount === 0);
    // No month before it is closed, so that nothing of one can be late.
    expect(empty.map(({ id }) => id)).toEqual(['late', 'late_lines']);
  });
});

describe.skipIf(findLibreOffice() === undefined)('LibreOffice, calculating from scratch', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-month-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test.each(demoBooks)('agrees in every cell of a month of the book %s', async (name) => {
    const { plan, values } = monthOf(demoBook(name), '2026-10');
    const file = join(folder, `${name}.xlsx`);
    await writeFile(file, await workbook(plan, wrongValues(values), about));
    expect(readable(differences(plan, values, await recalculatedCells(file)))).toBe('');
    expect(planCells(plan).length).toBeGreaterThan(1000);
  });

  test('agrees where names look like formulas and patterns', async () => {
    const plain = tradeBook({
      stocktakes: [['2026-09-30', 'blank', 10, 10]],
      made: [['2026-10-09', 'thing', 3, '', '']],
      used: [['2026-10-10', 'thing', 1, 'gift', '']],
      sales: [['2026-10-12', 'shop', 'thing', 1, 40]],
      more: {
        'purchases.csv':
          'date,invoice,supplier,material,quantity,amount\n2026-10-01,-007,@sum(1),blank,2,3\n2026-10-02,=1+1,TRUE,cord,7,0.07\n',
        'accounts.csv': 'posting,account,name\nsales,0400,=4*7\nmaterials,1e5,<none>\n',
      },
    });
    const strange = (text: string): string =>
      text.replaceAll('shop', '>5').replaceAll('thing', '<>x').replaceAll('blank', '=2');
    const book = new Map([...plain].map(([name, text]) => [name, strange(text)]));
    const { plan, values, problems } = monthOf(book, '2026-10');
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(values.get('start', 'sums', 0)).toBe('all well');
    const file = join(folder, 'strange.xlsx');
    await writeFile(file, await workbook(plan, wrongValues(values), about));
    expect(readable(differences(plan, values, await recalculatedCells(file)))).toBe('');
  });
});
