import { access, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { convertTo, findLibreOffice, recalculatedCells } from './libreoffice.ts';

/** A formula with a planted, wrong saved result: only a real recalculation gets rid of it. */
const planted = (formula: string): ExcelJS.CellFormulaValue => ({ formula, result: 99 });

const libreOffice = findLibreOffice();

test('a program that is not on PATH is not found', () => {
  const path = process.env.PATH;
  try {
    process.env.PATH = '/nowhere';
    expect(findLibreOffice()).toBeUndefined();
  } finally {
    process.env.PATH = path;
  }
});

describe.skipIf(libreOffice === undefined)('LibreOffice as judge', () => {
  let folder = '';
  let file = '';

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-harness-'));
    file = join(folder, 'planted.xlsx');
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet('Costs & more');
    sheet.getRow(1).values = [planted('1+1'), planted('0.1+0.2'), planted('1/3'), 0.1];
    sheet.getRow(2).values = [planted('""'), planted('"a"&"<b> & c"'), '  two  spaces ', '2', 'line\nbreak'];
    sheet.getRow(3).values = [planted('TRUE()'), planted('1=2'), true, planted('0*1')];
    sheet.getRow(4).values = [planted('1/0'), planted('NA()'), planted('nonsense(1)'), planted('"a"+1')];
    sheet.getRow(5).values = [
      planted('0.125'),
      planted('1234.5'),
      planted('DATE(2024,2,3)'),
      planted('1/3*1E-9'),
    ];
    sheet.getCell('A5').numFmt = '0%';
    sheet.getCell('B5').numFmt = '"EUR" #,##0.00';
    sheet.getCell('C5').numFmt = 'yyyy-mm-dd';
    // Equal neighbours and gaps: what other formats fold into one repeated cell.
    sheet.getRow(8).values = [7, 7, 7];
    sheet.getCell('E8').value = planted('SUM(A8:C8)');
    const second = book.addWorksheet("Maker's own");
    second.getCell('C5').value = planted("'Costs & more'!A1*21");
    book.addWorksheet('Empty');
    await book.xlsx.writeFile(file);
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test('every planted value is replaced; types and places are kept', async () => {
    const sheets = await recalculatedCells(file);
    expect([...sheets.keys()]).toEqual(['Costs & more', "Maker's own", 'Empty']);
    expect(sheets.get('Costs & more')).toEqual([
      [2, 0.3, 0.333333333333333, 0.1],
      ['', 'a<b> & c', '  two  spaces ', '2', 'line\nbreak'],
      [true, false, true, 0],
      [{ error: '#DIV/0!' }, { error: '#N/A' }, { error: '#NAME?' }, { error: '#VALUE!' }],
      [0.125, 1234.5, 45325, 3.33333333333333e-10],
      [],
      [],
      [7, 7, 7, null, 21],
    ]);
    expect(sheets.get("Maker's own")).toEqual([[], [], [], [], [null, null, 42]]);
    expect(sheets.get('Empty')).toEqual([]);
  });

  test('an ods file is recalculated as well, and a pdf can be made; both at the same time', async () => {
    const [ods, pdf] = await Promise.all([convertTo(file, 'ods', folder), convertTo(file, 'pdf', folder)]);
    expect((await readFile(pdf)).subarray(0, 5).toString()).toBe('%PDF-');
    expect((await recalculatedCells(ods)).get("Maker's own")?.[4]?.[2]).toBe(42);
  });

  test('what cannot be converted is said, and nothing is left behind', async () => {
    const own = await mkdtemp(join(folder, 'temporary-'));
    // Other tests use the common folder at the same time.
    vi.stubEnv('TMPDIR', own);
    try {
      await expect(convertTo(join(folder, 'missing.xlsx'), 'pdf', folder)).rejects.toThrow(
        'converted nothing',
      );
      await expect(convertTo(file, 'xlsx', folder)).rejects.toThrow('overwrite its own source');
      await recalculatedCells(file);
      expect((await readdir(own)).filter((name) => name.startsWith('sennit-'))).toEqual([]);
    } finally {
      vi.unstubAllEnvs();
    }
    await access(file);
  });

  test('an old result does not pass for a new one', async () => {
    const stale = join(folder, 'absent.pdf');
    await writeFile(stale, 'old');
    await expect(convertTo(join(folder, 'absent.xlsx'), 'pdf', folder)).rejects.toThrow('converted nothing');
    await expect(access(stale)).rejects.toThrow();
  });
});
