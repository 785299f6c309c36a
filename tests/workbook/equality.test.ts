import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Disagreement, disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { solvedBatch } from '../support/batch.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { differences, planCells, readable, wrongValues } from '../support/planCells.ts';

const batchSheets = ['make', 'cutting_plan', 'fittings', 'shopping_list'];

function readableDisagreements(found: readonly Disagreement[]): string[] {
  return found.map(
    ({ sheet, column, row, one, other }) => `${sheet.id}.${column.id} ${row}: ${one} ${other}`,
  );
}

const about = { date: '2026-03-02', version: '0.0.0' };

describe.skipIf(findLibreOffice() === undefined)('LibreOffice, calculating from scratch', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-equal-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test.each(demoBooks)('agrees with the engine in every cell of the book %s', async (name) => {
    const { plan, values } = pricedBook(demoBook(name));
    const file = join(folder, `${name}.xlsx`);
    await writeFile(file, await workbook(plan, wrongValues(values), about));
    const found = differences(plan, values, await recalculatedCells(file));
    expect(readable(found)).toBe('');
    // The comparison is only worth something where there is much to compare.
    expect(planCells(plan).length).toBeGreaterThan(1000);
  });

  test.each(demoBooks)('agrees in every cell of the book %s with its batch', async (name) => {
    const { plan, values } = (await solvedBatch(demoBook(name))).after;
    expect(plan.sheets.map(({ id }) => id)).toEqual(expect.arrayContaining(batchSheets));
    const reference = evaluate(plan);
    expect(readableDisagreements(disagreements(plan, reference, values))).toEqual([]);
    const file = join(folder, `${name}-batch.xlsx`);
    await writeFile(file, await workbook(plan, wrongValues(reference), about));
    const found = differences(plan, reference, await recalculatedCells(file));
    expect(readable(found)).toBe('');
    const own = planCells(plan).filter(({ sheet }) => batchSheets.includes(sheet.id));
    expect(own.length).toBeGreaterThan(400);
  });

  test('would be caught reading the planted values', async () => {
    const { plan, values } = pricedBook(demoBook('metric'));
    const planted = wrongValues(values);
    const file = join(folder, 'planted.xlsx');
    await writeFile(file, await workbook(plan, planted, about));
    const found = differences(plan, planted, await recalculatedCells(file));
    const computed = planCells(plan).filter(
      ({ column, row }) => row === 'total' || column.inputs === undefined,
    );
    expect(found.length).toBeGreaterThan(0.95 * computed.length);
  });
});
