import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { isFailure, type Values } from '../../engine/calc/values.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { columnLetters } from '../../engine/sheets/address.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { type BookText, demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { setCells } from '../support/editBook.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { writtenOds } from '../support/odsParts.ts';
import { differences, planCells, readable, resultOf, wrongValues } from '../support/planCells.ts';
import { childElements, elementsWithin } from '../support/xmlTree.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

describe.each(demoBooks)('the .ods file of the book %s', (name) => {
  const { plan, values } = pricedBook(demoBook(name));
  const whole = workbook(plan, values, about, 'ods');

  test('has a formula in every computed cell, with its value as the engine found it', async () => {
    const { sheets } = writtenOds(await whole);
    for (const cell of planCells(plan)) {
      const written = sheets.get(cell.sheet.title)?.cells.get(cell.address);
      const where = `${cell.sheet.title}!${cell.address}`;
      const isInput = cell.row !== 'total' && cell.column.inputs !== undefined;
      expect(written?.formula?.startsWith('of:='), where).toBe(isInput ? undefined : true);
      const ours = resultOf(values, cell);
      if (typeof ours === 'number') {
        expect(Number(written?.value), where).toBe(ours);
        expect(written?.type, where).toBe(cell.column.kind === 'percent' ? 'percentage' : 'float');
      } else if (typeof ours === 'string')
        expect([written?.value, written?.type], where).toEqual([ours, 'string']);
      else if (isFailure(ours)) expect(written?.xml.attributes['calcext:value-type'], where).toBe('error');
    }
  });

  test('has no formula beside those of the plan', async () => {
    const planned = new Set(planCells(plan).map(({ sheet, address }) => `${sheet.title}!${address}`));
    for (const [title, { cells }] of writtenOds(await whole).sheets) {
      const others = [...cells].filter(
        ([address, { formula }]) => formula !== undefined && !planned.has(`${title}!${address}`),
      );
      expect(others).toEqual([]);
    }
  });

  test('holds a maker’s text in cells that keep what is typed into them as text', async () => {
    const { sheets, styles } = writtenOds(await whole);
    let texts = 0;
    for (const { sheet, column, row, address } of planCells(plan)) {
      if (row === 'total' || typeof column.inputs?.[row] !== 'string') continue;
      const style = styles.get(sheets.get(sheet.title)?.cells.get(address)?.style ?? '');
      const format = styles.get(style?.attributes['style:data-style-name'] ?? '');
      expect(format?.name, `${sheet.title}!${address}`).toBe('number:text-style');
      texts += 1;
    }
    expect(texts).toBeGreaterThan(100);
  });

  test('names only styles, pages and rules that there are, each under one name', async () => {
    const { parts } = writtenOds(await whole);
    const all = [...parts.values()];
    const defined = (tag: string, attribute: string): string[] =>
      all.flatMap((part) => elementsWithin(part, tag).map(({ attributes }) => attributes[attribute] ?? ''));
    const names = [
      ...defined('style:style', 'style:name'),
      ...['number', 'percentage', 'text', 'date'].flatMap((kind) =>
        defined(`number:${kind}-style`, 'style:name'),
      ),
      ...defined('style:master-page', 'style:name'),
      ...defined('style:page-layout', 'style:name'),
      ...defined('table:content-validation', 'table:name'),
    ];
    expect(new Set(names).size).toBe(names.length);
    const known = new Set(names);
    const asks = [
      'table:style-name',
      'table:default-cell-style-name',
      'table:content-validation-name',
      'text:style-name',
      'style:data-style-name',
      'style:parent-style-name',
      'style:apply-style-name',
      'style:master-page-name',
      'style:page-layout-name',
      'calcext:apply-style-name',
    ];
    const missing = new Set<string>();
    const look = (element: (typeof all)[number]): void => {
      for (const ask of asks) {
        const asked = element.attributes[ask];
        if (asked !== undefined && !known.has(asked)) missing.add(`${ask} ${asked}`);
      }
      for (const child of childElements(element)) look(child);
    };
    all.forEach(look);
    expect([...missing]).toEqual([]);
  });

  test('puts the elements of a sheet and of a style in the order of the schema (ODF 1.3 part 3)', async () => {
    const { parts } = writtenOds(await whole);
    // Order of siblings, from memory of the schema; extensions of LibreOffice may stand anywhere.
    const orders: Readonly<Record<string, readonly string[]>> = {
      'office:spreadsheet': [
        'table:calculation-settings',
        'table:content-validations',
        'table:table',
        'table:named-expressions',
      ],
      'table:table': [
        'table:table-header-columns|table:table-column',
        'table:table-header-rows|table:table-row',
      ],
      'table:table-cell': ['office:annotation', 'text:p'],
      'style:style': [
        'style:table-properties|style:table-column-properties|style:table-row-properties|style:table-cell-properties',
        'style:paragraph-properties',
        'style:text-properties',
        'style:map',
      ],
      'style:master-page': ['style:header', 'style:header-left', 'style:footer', 'style:footer-left'],
      'style:page-layout': ['style:page-layout-properties', 'style:header-style', 'style:footer-style'],
      'number:number-style': ['number:text|number:number', 'style:map'],
      'number:percentage-style': ['number:text|number:number', 'style:map'],
    };
    for (const part of parts.values()) {
      for (const [parent, order] of Object.entries(orders)) {
        for (const element of elementsWithin(part, parent)) {
          const ranks = childElements(element)
            .filter((child) => !/^(calcext|loext):/.test(child.name))
            .map((child) => order.findIndex((names) => names.split('|').includes(child.name)));
          expect(ranks, JSON.stringify(element).slice(0, 300)).toEqual(
            [...ranks].sort((one, other) => one - other),
          );
          expect(ranks).not.toContain(-1);
        }
      }
    }
  });

  test('is the same bytes each time, and others on another day', async () => {
    expect(Buffer.compare(await workbook(plan, values, about, 'ods'), await whole)).toBe(0);
    const later = await workbook(plan, values, { ...about, date: '2026-03-03' }, 'ods');
    expect(Buffer.compare(later, await whole)).not.toBe(0);
  });
});

/** Text that a program would like to take for something else. */
const awkward: readonly string[] = [
  '=1+1',
  'of:=1+1',
  '+1',
  '-1',
  '@x',
  '=HYPERLINK("x")',
  "'quoted",
  '007',
  '1/2',
  'TRUE',
  '<b>&amp; "so"',
  'two  blanks',
  'a\tb',
  ']]>',
  '{=1}',
  '[.A1]',
  'näh ☼ 線',
];

/** The starter book with such texts, and the column where they stand. */
function awkwardBook(): { readonly plan: Plan; readonly values: Values; readonly at: number } {
  const start = demoBook('starter');
  const keys = pricedBook(start).plan.sheets.find(({ id }) => id === 'materials')?.columns[0]?.inputs ?? [];
  const book = awkward.reduce<BookText>(
    (text, name, at) =>
      setCells(text, 'materials.csv', { material: String(keys[at]) }, { name, colour: name }),
    start,
  );
  const { plan, values } = pricedBook(book);
  return { plan, values, at: new PlanIndex(plan).sheet('materials').columns.get('name')?.at ?? 0 };
}

test('text that looks like a formula is never written as one', async () => {
  const { plan, values, at } = awkwardBook();
  const cells = writtenOds(await workbook(plan, values, about, 'ods')).sheets.get('Materials')?.cells;
  const told = awkward.map((_, row) => {
    const { formula, type, value } = cells?.get(`${columnLetters(at)}${3 + row}`) ?? {};
    return [formula, type, value];
  });
  expect(told).toEqual(awkward.map((text) => [undefined, 'string', text]));
});

test.skipIf(findLibreOffice() === undefined)('LibreOffice reads such text as the text it is', async () => {
  const { plan, values, at } = awkwardBook();
  const folder = await mkdtemp(join(tmpdir(), 'sennit-ods-awkward-'));
  try {
    const file = join(folder, 'book.ods');
    await writeFile(file, await workbook(plan, wrongValues(values), about, 'ods'));
    const sheets = await recalculatedCells(file);
    expect(readable(differences(plan, values, sheets))).toBe('');
    expect(awkward.map((_, row) => sheets.get('Materials')?.[2 + row]?.[at])).toEqual(awkward);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
