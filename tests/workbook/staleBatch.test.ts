import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { workbook } from '../../engine/export/workbook.ts';
import { cellAddress, columnLetters } from '../../engine/sheets/address.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { type SolvedBatch, solvedBatch } from '../support/batch.ts';
import { demoBook } from '../support/books.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';

interface Write {
  readonly sheet: string;
  readonly column: string;
  /** A key of the row; the one row of a form where it is left out. */
  readonly key?: string;
  readonly value: number;
}

/** What a maker changes in the workbook, and which checks of the cutting plan then have to say "look". */
const changes: Readonly<
  Record<string, { readonly writes: readonly Write[]; readonly checks: readonly string[] }>
> = {
  'a woven length': {
    writes: [{ sheet: 'products', column: 'woven_length_set', key: 'wrist medium', value: 11 }],
    checks: ['length_check'],
  },
  'the spare at each end': {
    writes: [{ sheet: 'rates', column: 'spare_per_working_end', value: 14 }],
    checks: ['length_check'],
  },
  'how many are made': {
    writes: [{ sheet: 'make', column: 'quantity', key: 'fob long', value: 25 }],
    checks: ['pieces_check'],
  },
  'what a cut loses, beyond what a spool holds': {
    writes: [{ sheet: 'rates', column: 'cut_loss', value: 60 }],
    checks: ['room_check'],
  },
  'a spool that is not there': {
    writes: [{ sheet: 'stock', column: 'count', key: 'moss cord', value: 0 }],
    checks: ['stock_check'],
  },
};

describe.skipIf(findLibreOffice() === undefined)('a cutting plan in a workbook that was changed', () => {
  let folder = '';
  let batch: SolvedBatch;
  let bytes = new Uint8Array();
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-stale-'));
    batch = await solvedBatch(demoBook('starter'));
    bytes = new Uint8Array(
      await workbook(batch.after.plan, batch.after.values, { date: '2026-03-02', version: '0' }),
    );
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  /** Texts of a column after the change, as LibreOffice reckons them. */
  async function after(name: string, writes: readonly Write[]) {
    const index = new PlanIndex(batch.after.plan);
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(bytes.buffer as ArrayBuffer);
    const place = (sheet: string, column: string, row: number) => {
      const { sheet: own, columns } = index.sheet(sheet);
      return { title: own.title, ...cellAddress(own, columns.get(column)?.at ?? -1, row) };
    };
    for (const { sheet, column, key, value } of writes) {
      const keys = index.column(sheet, index.sheet(sheet).sheet.key[0] ?? column).inputs ?? [];
      const row = key === undefined ? 0 : keys.indexOf(key);
      expect(row).toBeGreaterThanOrEqual(0);
      const at = place(sheet, column, row);
      const cell = book.getWorksheet(at.title)?.getCell(`${columnLetters(at.column)}${at.row}`);
      expect(cell?.protection?.locked, 'a cell that its maker may change').toBe(false);
      if (cell !== undefined) cell.value = value;
    }
    const file = join(folder, `${name.replace(/\W+/g, '-')}.xlsx`);
    await writeFile(file, new Uint8Array((await book.xlsx.writeBuffer()) as ArrayBuffer));
    const sheets = await recalculatedCells(file);
    return (sheet: string, column: string): unknown[] => {
      const { rowCount } = index.sheet(sheet).sheet;
      return Array.from({ length: rowCount }, (_, row) => {
        const at = place(sheet, column, row);
        return sheets.get(at.title)?.[at.row - 1]?.[at.column] ?? null;
      });
    };
  }

  test('all is well before', async () => {
    const cells = await after('unchanged', []);
    expect(cells('start', 'sums')).toEqual(['all well']);
  });

  test.each(Object.entries(changes))(
    '%s: the checks say that the plan is left behind',
    async (name, { writes, checks }) => {
      const cells = await after(name, writes);
      for (const check of checks) {
        expect(cells('cutting_plan', check)).toContain('look');
        // Not everything: what the change does not touch stays well.
        expect(cells('cutting_plan', check)).toContain('well');
      }
      expect(cells('start', 'sums')).toEqual(['look at the sheet Checks']);
    },
  );
});
