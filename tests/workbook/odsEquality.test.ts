import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { evaluate } from '../../engine/calc/evaluate.ts';
import type { Values } from '../../engine/calc/values.ts';
import { workbook } from '../../engine/export/workbook.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { solvedBatch } from '../support/batch.ts';
import { demoBook, demoBooks, pricedBook, sourceOf } from '../support/books.ts';
import { functionSheet } from '../support/functionSheet.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { differences, planCells, readable, wrongValues } from '../support/planCells.ts';
import { formula, formulaPlan } from '../support/randomFormula.ts';
import type { RecalculatedValue } from '../support/savedValues.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

describe.skipIf(findLibreOffice() === undefined)('LibreOffice, calculating an .ods file from scratch', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-ods-equal-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  /** Every value of a workbook that is written with `cached` instead of what was calculated. */
  async function recalculated(
    plan: Plan,
    cached: Values,
    format: 'ods' | 'xlsx' = 'ods',
  ): ReturnType<typeof recalculatedCells> {
    const file = join(folder, `book.${format}`);
    await writeFile(file, await workbook(plan, cached, about, format));
    return recalculatedCells(file);
  }

  test.each(demoBooks)('agrees in every cell of the book %s', async (name) => {
    const { plan, values } = pricedBook(demoBook(name));
    expect(readable(differences(plan, values, await recalculated(plan, wrongValues(values))))).toBe('');
    expect(planCells(plan).length).toBeGreaterThan(1000);
  });

  test.each(demoBooks)('agrees in every cell of the book %s with its batch', async (name) => {
    const { plan } = (await solvedBatch(demoBook(name))).after;
    const values = evaluate(plan);
    expect(readable(differences(plan, values, await recalculated(plan, wrongValues(values))))).toBe('');
    expect(plan.sheets.map(({ id }) => id)).toContain('cutting_plan');
  });

  test.each(demoBooks)('agrees in every cell of the book %s with a scenario switched on', async (name) => {
    const book = demoBook(name);
    const scenario =
      /^([^,;\n]+)[,;]/m.exec((book.get('scenarios.csv') ?? '').replace(/^.*\n/, ''))?.[1] ?? '';
    const askingPrices = 'keep the margins';
    const { plan, values } = switchBook(sourceOf(book), { scenario, on: '', askingPrices });
    if (plan === undefined || values === undefined) throw new Error('not calculated');
    expect(readable(differences(plan, values, await recalculated(plan, wrongValues(values))))).toBe('');
    expect(values.number('what_if', 'moved', 0)).toBeGreaterThan(0);
  });

  test('agrees on every function that a sheet may use', async () => {
    const { plan, values } = pricedBook(
      new Map([...demoBook('starter'), ['sheets/functions.yaml', functionSheet()]]),
    );
    const found = differences(plan, values, await recalculated(plan, wrongValues(values)));
    expect(readable(found.filter(({ cell }) => cell.sheet.id === 'functions'))).toBe('');
  });

  test('reads a formula in either file as the same', async () => {
    const formulas = fc.sample(formula, { seed: 1303, numRuns: 1500 });
    const plan = formulaPlan(formulas);
    const values = wrongValues(evaluate(plan));
    const fromXlsx = (await recalculated(plan, values, 'xlsx')).get('Probe') ?? [];
    const fromOds = (await recalculated(plan, values)).get('Probe') ?? [];
    // Which of the two a cell with a number format shows is told by the format in one file and by the value in the other.
    const asNumber = (value: RecalculatedValue | undefined): RecalculatedValue =>
      typeof value === 'boolean' ? Number(value) : (value ?? null);
    const apart = formulas.flatMap((text, at) => {
      const [one, other] = [asNumber(fromXlsx[2 + at]?.[1]), asNumber(fromOds[2 + at]?.[1])];
      return JSON.stringify(one) === JSON.stringify(other)
        ? []
        : [`${text}: ${JSON.stringify(one)} in .xlsx, ${JSON.stringify(other)} in .ods`];
    });
    expect(apart).toEqual([]);
  });

  test('would be caught reading the planted values', async () => {
    const { plan, values } = pricedBook(demoBook('metric'));
    const planted = wrongValues(values);
    const found = differences(plan, planted, await recalculated(plan, planted));
    const computed = planCells(plan).filter(
      ({ column, row }) => row === 'total' || column.inputs === undefined,
    );
    expect(found.length).toBeGreaterThan(0.95 * computed.length);
  });
});
