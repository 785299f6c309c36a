import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { monthFront } from '../../engine/export/pages/monthFront.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { demoBook } from '../support/books.ts';
import { monthOf } from '../support/monthSource.ts';

async function printed(id: string): Promise<ExcelJS.Worksheet[]> {
  const { plan, values, month } = monthOf(demoBook('starter'), id);
  const front = monthFront(month.name, 'weighted average');
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(
    (await workbook(plan, values, { date: '2026-11-03', version: '0', front })).buffer as ArrayBuffer,
  );
  return book.worksheets;
}

const headings = (page: ExcelJS.Worksheet, columns: number): string[] =>
  Array.from({ length: columns }, (_, at) => String(page.getRow(2).getCell(at + 1).value));

describe('a month on paper', () => {
  it('repeats on every page across what a row is about', async () => {
    const wide = (await printed('2026-10')).filter(({ pageSetup }) => (pageSetup.fitToWidth ?? 1) > 1);
    const repeated = wide.map((page) => {
      const last = /^A:([A-Z])$/.exec(page.pageSetup.printTitlesColumn ?? '')?.[1] ?? '';
      return [page.name, headings(page, last.charCodeAt(0) - 64).join(', ')];
    });
    expect(repeated).toEqual([
      ['Sales by channel', 'Channel'],
      ['Sales', 'Line, Product, Channel'],
      ['Purchases', 'Line, Material, Invoice'],
      ['Materials', 'Line, Material'],
      ['Finished goods', 'Line, Product'],
    ]);
  });

  it('has a first page that can be read: upright, at six and a half points or more', async () => {
    const [start] = await printed('2026-10');
    expect(start?.pageSetup).toMatchObject({ orientation: 'portrait', fitToWidth: 1, fitToHeight: 1 });
    const heights = Array.from(
      { length: start?.rowCount ?? 0 },
      (_, at) => start?.getRow(at + 1).height ?? 13,
    );
    // Letter upright is 11 inches of 72 points, less the margins of 0.8 and 0.7.
    expect(10 * ((9.5 * 72) / heights.reduce((sum, each) => sum + each, 0))).toBeGreaterThan(6.5);
  });

  it('says of every sheet without rows that there was nothing, on one page', async () => {
    // A month before the book begins: nothing happened in it.
    const pages = await printed('2026-07');
    const empty = pages.filter((page) => page.name !== 'Start' && page.getCell('A3').value === null);
    expect(empty.length).toBeGreaterThan(8);
    for (const page of empty) {
      expect(page.getCell('A1').value, page.name).toMatch(/\. Nothing in July 2026\.$/);
      expect(page.pageSetup.fitToWidth, page.name).toBe(1);
    }
    for (const page of pages.filter((each) => !empty.includes(each)))
      expect(page.getCell('A1').value, page.name).not.toContain('Nothing in');
  });
});
