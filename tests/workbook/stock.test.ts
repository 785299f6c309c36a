import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { stockBook } from '../../engine/stockBook.ts';
import { demoBook, demoBooks, sourceOf } from '../support/books.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { differences, planCells, readable, wrongValues } from '../support/planCells.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

describe.skipIf(findLibreOffice() === undefined)('the sheets of stock and variances in LibreOffice', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-stock-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test.each(demoBooks)('book %s: every cell as both engines have it', async (name) => {
    const { plan, values } = stockBook(sourceOf(demoBook(name)), {
      method: 'first in first out',
      timing: 'periodic',
    });
    if (plan === undefined || values === undefined) throw new Error('not calculated');
    const reference = evaluate(plan);
    expect(
      disagreements(plan, reference, values).map(
        ({ sheet, column, row }) => `${sheet.id}.${column.id} ${row}`,
      ),
    ).toEqual([]);
    const file = join(folder, `${name}.xlsx`);
    await writeFile(file, await workbook(plan, wrongValues(values), about));
    expect(readable(differences(plan, values, await recalculatedCells(file)))).toBe('');
    const own = planCells(plan).filter(({ sheet }) => /^(stock|variance)_/.test(sheet.id));
    expect(own.length).toBeGreaterThan(1000);
  });
});
