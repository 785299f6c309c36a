import { describe, expect, test } from 'vitest';
import type { Values } from '../../engine/calc/values.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { originTitle } from '../../engine/origin/originCells.ts';
import { totalRow } from '../../engine/sheets/address.ts';
import { definedName } from '../../engine/sheets/spell.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { planCells, resultOf } from '../support/planCells.ts';
import { type WrittenBook, writtenBook } from '../support/xlsxParts.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

describe.each(demoBooks)('the workbook of the book %s', (name) => {
  const { plan, values } = pricedBook(demoBook(name));
  const whole = workbook(plan, values, about);
  const spareFrom = new Map(
    plan.sheets.map((sheet) => [sheet.title, sheet.layout === 'form' ? Infinity : totalRow(sheet)]),
  );
  const read = async (): Promise<WrittenBook> => writtenBook(await whole);

  test('has no computed cell that is a dead value', async () => {
    const { sheets } = await read();
    const computed = planCells(plan).filter(
      ({ column, row }) => row === 'total' || column.inputs === undefined,
    );
    const dead = computed.filter(
      ({ sheet, address }) => sheets.get(sheet.title)?.cells.get(address)?.formula === undefined,
    );
    expect(dead.map(({ sheet, address }) => `${sheet.title}!${address}`)).toEqual([]);
    expect(computed.length).toBeGreaterThan(500);
  });

  test('has no formula beside those of the plan', async () => {
    const planned = new Set(planCells(plan).map(({ sheet, address }) => `${sheet.title}!${address}`));
    for (const [title, { cells }] of (await read()).sheets) {
      const others = [...cells].filter(
        ([address, { formula }]) => formula !== undefined && !planned.has(`${title}!${address}`),
      );
      expect(others).toEqual([]);
    }
  });

  test('caches every result as the engine found it', async () => {
    const { sheets } = await read();
    for (const cell of planCells(plan)) {
      if (cell.row !== 'total' && cell.column.inputs !== undefined) continue;
      const written = sheets.get(cell.sheet.title)?.cells.get(cell.address);
      const ours = resultOf(values, cell);
      const where = `${cell.sheet.title}!${cell.address}`;
      if (typeof ours === 'number')
        expect([Number(written?.cached), written?.type], where).toEqual([ours, undefined]);
      else if (typeof ours === 'string')
        expect([written?.cached, written?.type], where).toEqual([ours, 'str']);
    }
  });

  test('unlocks inputs and overrides, and nothing else, behind a guard rail without a password', async () => {
    const { sheets, locked } = await read();
    const open = new Set(
      planCells(plan)
        .filter(
          ({ column, row }) =>
            row !== 'total' &&
            // A formula that stands as text has been built in already.
            column.kind !== 'formula' &&
            (column.role === 'input' || column.role === 'override'),
        )
        .map(({ sheet, address }) => `${sheet.title}!${address}`),
    );
    const unlocked = [...sheets].flatMap(([title, { cells }]) =>
      [...cells].filter(([, { style }]) => locked[style] === false).map(([address]) => `${title}!${address}`),
    );
    // Lines for new rows are open as well; `spareLines.test.ts` says which of their cells.
    const planned = (title: string, row: number): boolean => row < (spareFrom.get(title) ?? Infinity);
    const ofRecords = unlocked.filter((each) => {
      const [title = '', address = ''] = each.split('!');
      return planned(title, Number(/\d+/.exec(address)?.[0]));
    });
    expect(new Set(ofRecords)).toEqual(open);
    for (const { xml } of sheets.values()) {
      expect(xml).toMatch(/<sheetProtection sheet="1"[^>]*formatColumns="0"/);
      expect(xml).not.toMatch(/<sheetProtection[^>]*(hashValue|password)/);
    }
  });

  test('holds text as text, in cells where nothing can become a formula', async () => {
    const { sheets, formats } = await read();
    for (const { sheet, column, row, address } of planCells(plan)) {
      if (row === 'total' || column.inputs === undefined) continue;
      const written = sheets.get(sheet.title)?.cells.get(address);
      expect(written?.formula, `${sheet.title}!${address}`).toBeUndefined();
      if (typeof column.inputs[row] === 'string')
        expect(formats[written?.style ?? 0], `${sheet.title}!${address}`).toBe('@');
    }
  });

  test('names every figure of a one-row sheet, where it stands', async () => {
    const { names, sheets } = await read();
    for (const { sheet, column, address } of planCells(plan)) {
      if (sheet.layout !== 'form') continue;
      const absolute = address.replace(/([A-Z]+)(\d+)/, '$$$1$$$2');
      expect(names.get(definedName(sheet, column))).toBe(`'${sheet.title}'!${absolute}`);
    }
    const used = [...sheets.values()].flatMap(({ cells }) =>
      [...cells.values()].map(({ formula }) => formula ?? ''),
    );
    const words = new Set(
      used.flatMap(
        (formula) =>
          formula.replace(/"[^"]*"|'[^']*'!|\w+!|\w+\(/g, ' ').match(/\b[a-z]\w*\.[a-z]\w*/g) ?? [],
      ),
    );
    expect(words.size).toBeGreaterThan(5);
    for (const word of words) expect([...names.keys()]).toContain(word);
  });

  test('prints every sheet on whole pages of the paper in use, the first upright, with headings', async () => {
    const { sheets, parts } = await read();
    const paper = plan.settings.lengthUnit === 'in' ? 1 : 9;
    for (const [title, { xml }] of sheets) {
      // Hidden, and so never printed.
      if (title === originTitle) continue;
      expect(xml).toContain(
        `<pageSetup paperSize="${paper}" orientation="${title === 'Start' ? 'portrait' : 'landscape'}"`,
      );
      expect(xml).toMatch(/fitToWidth="\d"/);
      expect(xml).toContain('Page &amp;P of &amp;N');
      expect(xml).toContain(about.date);
    }
    const book = parts.get('xl/workbook.xml') ?? '';
    expect(book.match(/_xlnm\.Print_Area/g)).toHaveLength(plan.sheets.length);
    expect(book.match(/_xlnm\.Print_Titles/g)).toHaveLength(plan.sheets.length);
  });

  test('says in the first row what the sheet answers, and leaves the cell beside it blank', async () => {
    const { sheets, parts } = await read();
    const shared = [...(parts.get('xl/sharedStrings.xml') ?? '').matchAll(/<si>([\s\S]*?)<\/si>/g)].map(
      ([, text = '']) => text,
    );
    for (const sheet of plan.sheets) {
      const cells = sheets.get(sheet.title)?.cells;
      expect(shared[Number(cells?.get('A1')?.cached)]).toContain(sheet.answers.slice(0, 20));
      expect(cells?.get('B1')?.cached).toBeUndefined();
    }
  });

  test('keeps every formula within what the file format allows', async () => {
    const longest = Math.max(
      ...[...(await read()).sheets.values()].flatMap(({ cells }) =>
        [...cells.values()].map(({ formula }) => formula?.length ?? 0),
      ),
    );
    expect(longest).toBeLessThan(8192);
  });

  test('is the same bytes each time', async () => {
    expect(Buffer.compare(await workbook(plan, values, about), await whole)).toBe(0);
  });
});

test('zero, empty text, truth and errors are cached as what they are', async () => {
  const { plan, values } = pricedBook(demoBook('metric'));
  const results = [0, '', false, true, { error: '#DIV/0!' }, { error: '#CYCLE!' }, null] as const;
  const rest: Values = {
    ...values,
    number: () => 0,
    total: () => 0,
    get: (_, __, row) => results[row] ?? null,
  };
  const cells = writtenBook(await workbook(plan, rest, about)).sheets.get('Costs')?.cells;
  const written = results.map((_, row) => {
    const { type, cached } = cells?.get(`B${3 + row}`) ?? {};
    return [type, cached];
  });
  expect(written).toEqual([
    [undefined, '0'],
    ['str', ''],
    ['b', '0'],
    ['b', '1'],
    ['e', '#DIV/0!'],
    ['e', '#VALUE!'],
    [undefined, undefined],
  ]);
});
