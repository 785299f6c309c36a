import { expect, test } from 'vitest';
import { licence } from '../../../engine/export/pages/startText.ts';
import { workbook } from '../../../engine/export/workbook.ts';
import { demoBook, pricedBook } from '../../support/books.ts';
import { writtenPages } from '../../support/writtenPages.ts';
import { writtenBook } from '../../support/xlsxParts.ts';

const { page, cell, plan } = await writtenPages();

/** Every text of a page, in reading order. */
function texts(sheetId: string): string[] {
  const found: string[] = [];
  page(sheetId).eachRow((row) => row.eachCell((each) => found.push(each.text)));
  return found;
}

test('the start page says whose it is, whether its sums agree, where to go, what to beware of', () => {
  const all = texts('start').join('\n');
  expect(page('start').getCell('A2').text).toBe(`${plan.settings.workshop}: costs and prices`);
  expect(page('start').getCell('B3').formula).toContain('Checks!');
  for (const word of [
    'ventilate',
    'water',
    'sleeves',
    'breakaway',
    'unattended',
    'three',
    'climbing',
    'lifting',
    'licensed professional',
  ]) {
    expect(all.toLowerCase()).toContain(word);
  }
  for (const word of ['Estimated', 'Measured', 'Input', 'Computed', '2026-03-02', 'Sennit 9.8.7', licence])
    expect(all).toContain(word);
});

test('links lead to cells inside the workbook, and to no file', async () => {
  const priced = pricedBook(demoBook('starter'));
  const { sheets, parts } = writtenBook(
    await workbook(priced.plan, priced.values, { date: '2026-03-02', version: '1' }),
  );
  const links = sheets.get('Start')?.xml.match(/<hyperlink [^>]*>/g) ?? [];
  expect(links).toHaveLength(5);
  for (const link of links) expect(link).toMatch(/^<hyperlink ref="B\d+" location="\w+![A-Z]+\d+"\/>$/);
  expect(
    [...parts].filter(([name, part]) => name.endsWith('.rels') && part.includes('TargetMode="External"')),
  ).toEqual([]);
  expect(cell('rates', 'wage_per_hour', 0).address).toBe('B3');
});
