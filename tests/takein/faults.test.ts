import type ExcelJS from 'exceljs';
import { describe, expect, test } from 'vitest';
import { demoBook } from '../support/books.ts';
import { cell, changed, page, refused, rowOf, spareRow, takenIn, workbookOf } from '../support/takein.ts';

const starter = demoBook('starter');
const bytes = await workbookOf(starter);

async function faultsOf(change: (book: ExcelJS.Workbook) => void): Promise<string[]> {
  return refused(takenIn(starter, await changed(bytes, change)));
}

function rate(book: ExcelJS.Workbook, line: string): ExcelJS.Cell {
  const rates = page(book, 'Rates');
  return rates.getCell(`B${rowOf(rates, line)}`);
}

describe('what a workbook brings that cannot be taken', () => {
  test('is told of every kind in one go, each with the sheet and cell that it stands in', async () => {
    const faults = await faultsOf((book) => {
      rate(book, 'Wage').value = null;
      rate(book, 'Wanted margin on the net price').value = 1;
      const materials = page(book, 'Materials');
      cell(materials, rowOf(materials, 'slate cord'), 'Pack price, USD').value = 'plenty';
      cell(materials, rowOf(materials, 'rust cord'), 'Pack price, USD').value = -4;
      const day = cell(materials, rowOf(materials, 'moss cord'), 'Pack price, USD');
      day.value = new Date('2026-05-01');
      day.style = { ...day.style, numFmt: 'yyyy-mm-dd' };
      const products = page(book, 'Products');
      cell(products, rowOf(products, 'fob short'), 'Over cord').value = 'golden cord';
      cell(products, rowOf(products, 'fob long'), 'Over cord').value = 'golden cord';
      cell(page(book, 'Overheads'), 3, 'Each month, USD').value = { error: '#DIV/0!' };
    });
    expect(faults.sort()).toEqual([
      expect.stringMatching(
        /^reference-unknown Products K3: “golden cord” is not in materials\. It stands in Products!K3 \(fob short\), Products!K4 \(fob long\)\.$/,
      ),
      expect.stringMatching(/^workbook-cell Materials I3: “plenty” is not an amount of money/),
      expect.stringMatching(/^workbook-cell Materials I4: Pack price, USD cannot be -4\.00/),
      expect.stringMatching(/^workbook-cell Materials I5: The cell holds a date/),
      expect.stringMatching(/^workbook-cell Overheads B3: The cell shows #DIV\/0!/),
      'workbook-cell Rates B10: Wanted margin on the net price cannot be 100.',
      'workbook-cell Rates B3: The cell is blank, and Wage is needed.',
    ]);
  });

  test('in an empty line is told of the line, and of a row that is not whole of the cells it lacks', async () => {
    const lines: number[] = [];
    const faults = await faultsOf((book) => {
      const materials = page(book, 'Materials');
      lines.push(spareRow(materials), spareRow(materials, 2));
      cell(materials, spareRow(materials), 'Pack price, USD').value = 5;
      cell(materials, spareRow(materials, 2), 'Material').value = 'dune cord';
      cell(materials, spareRow(materials, 2), 'Sold by').value = 'length';
      // Who names the row that is not whole yet is at no fault.
      cell(page(book, 'Products'), 3, 'Over cord').value = 'dune cord';
    });
    expect(faults).toEqual([
      `workbook-layout Materials I${lines[0]}: “5” stands in a line that has no name: A${lines[0]} (Material) is blank.`,
      `workbook-cell Materials H${lines[1]}: The cell is blank, and Pack holds, ft or pieces is needed.`,
      `workbook-cell Materials I${lines[1]}: The cell is blank, and Pack price, USD is needed.`,
    ]);
  });

  test('where a material is gone names whoever uses it, and no formula that follows from it', async () => {
    const faults = await faultsOf((book) => {
      const materials = page(book, 'Materials');
      materials.spliceRows(rowOf(materials, 'belt buckle'), 1);
    });
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(/^reference-unknown .*“belt buckle” is still used in .*Parts!B\d+ \(/);
    expect(faults[0]).toContain('because you removed it from the sheet Materials');
  });

  test('by its effect on other rows is told of the cell that has it', async () => {
    const faults = await faultsOf((book) => {
      cell(page(book, 'Fees'), 3, 'Share').value = 0.99;
    });
    expect(faults).toEqual([
      expect.stringMatching(
        /^check-failed Fees [A-Z]+3: With Share at 99 % instead of \d.*: Channel stall, product fob short: fees of/,
      ),
    ]);
  });

  test('of a name that stands twice names both cells', async () => {
    const faults = await faultsOf((book) => {
      const materials = page(book, 'Materials');
      for (const heading of [
        'Material',
        'Name',
        'Sold by',
        'Diameter, mm',
        'Pack holds, ft or pieces',
        'Pack price, USD',
      ])
        cell(materials, spareRow(materials), heading).value = cell(materials, 4, heading).value;
    });
    expect(faults).toEqual([
      expect.stringMatching(/^workbook-layout Materials A\d+: “rust cord” stands in A4 already\.$/),
    ]);
  });

  test('as a per cent without its sign is refused', async () => {
    expect(
      await faultsOf((book) => {
        rate(book, 'Sales tax').value = 12;
      }),
    ).toEqual([expect.stringMatching(/^workbook-cell Rates B\d+: The cell says 1200 %\.$/)]);
  });
});
