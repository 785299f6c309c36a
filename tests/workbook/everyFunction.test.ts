import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { workbook } from '../../engine/export/workbook.ts';
import { sheetFunctions } from '../../engine/sheets/functions.ts';
import { demoBook, pricedBook } from '../support/books.ts';
import { functionCases, functionSheet } from '../support/functionSheet.ts';
import { ironCalcCells } from '../support/ironCalcPlan.ts';
import { ironCalcValues } from '../support/ironcalc.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { type Difference, differences, readable, wrongValues } from '../support/planCells.ts';

const book = new Map([...demoBook('starter'), ['sheets/functions.yaml', functionSheet()]]);

const ofFunctions = (found: readonly Difference[]): Difference[] =>
  found.filter(({ cell }) => cell.sheet.id === 'functions');

test('every function that a sheet may use has a case', () => {
  expect(Object.keys(functionCases).sort()).toEqual([...sheetFunctions.keys()].sort());
});

test.skipIf(findLibreOffice() === undefined)('LibreOffice agrees on every function', async () => {
  const { plan, values } = pricedBook(book);
  const folder = await mkdtemp(join(tmpdir(), 'sennit-functions-'));
  try {
    const file = join(folder, 'functions.xlsx');
    await writeFile(
      file,
      await workbook(plan, wrongValues(values), { date: '2026-03-02', version: '0.0.0' }),
    );
    expect(readable(ofFunctions(differences(plan, values, await recalculatedCells(file))))).toBe('');
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

/** What IronCalc 0.8.4 gets wrong: it rounds the binary double, not the decimal it stands for. It lacks none. */
const ironCalcFaults: readonly string[] = [
  'INT 2',
  'ROUND 1',
  'ROUND 2',
  'ROUND 3',
  'ROUNDDOWN 1',
  'TRUNC 3',
];

test('IronCalc agrees on every function but for its known faults', async () => {
  const { plan, values } = pricedBook(book);
  const found = ofFunctions(differences(plan, values, await ironCalcValues(ironCalcCells(plan))));
  const keys = found.map(({ cell }) => String(values.get('functions', 'what', Number(cell.row))));
  expect(keys, readable(found)).toEqual(ironCalcFaults);
});
