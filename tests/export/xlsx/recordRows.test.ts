import { expect, test } from 'vitest';
import type { Content } from '../../../engine/export/pages/cellContent.ts';
import { type Records, withColumn } from '../../../engine/export/pages/records.ts';
import { withRecords } from '../../../engine/export/xlsx/recordRows.ts';

const sheet =
  '<dimension ref="A1:C4"/><sheetData><row r="1"><c r="A1"/></row><row r="3" spans="1:3"><c r="A3" s="7"/><c r="C3" s="9"/></row><row r="6"/></sheetData>';

function records(
  rows: readonly (readonly (Content | undefined)[])[],
  heights: [number, number][] = [],
): Records {
  return { top: 3, count: rows.length, heights: new Map(heights), contents: (at) => rows[at] ?? [] };
}

const written = (own: Records): string => [...withRecords(sheet, own)].join('');
const rowsOf = (own: Records): string => /<row r="3.*(?=<row r="6")/.exec(written(own))?.[0] ?? '';

test('records stand in place of the row that holds their styles, and the filled range reaches down to them', () => {
  expect(written(records([[1], [2], [3]]))).toBe(
    '<dimension ref="A1:C5"/><sheetData><row r="1"><c r="A1"/></row>' +
      '<row r="3"><c r="A3" s="7"><v>1</v></c></row><row r="4"><c r="A4" s="7"><v>2</v></c></row>' +
      '<row r="5"><c r="A5" s="7"><v>3</v></c></row><row r="6"/></sheetData>',
  );
  expect(written(records([[1]]))).toContain('ref="A1:C4"');
});

test.each<readonly [string, Content | undefined, string]>([
  ['a number', 1e-7, ' s="7"><v>1e-7</v></c>'],
  ['truth', false, ' s="7" t="b"><v>0</v></c>'],
  ['text', ' a<b & "c" ', ' s="7" t="inlineStr"><is><t xml:space="preserve"> a&lt;b &amp; "c" </t></is></c>'],
  ['a blank', null, ' s="7"/>'],
  ['a formula', { formula: 'B1&"<"', result: 0 }, ' s="7"><f>B1&amp;"&lt;"</f><v>0</v></c>'],
  ['a formula of text', { formula: 'B1', result: '' }, ' s="7" t="str"><f>B1</f><v></v></c>'],
  ['a formula of truth', { formula: 'B1', result: true }, ' s="7" t="b"><f>B1</f><v>1</v></c>'],
  ['a formula of a blank', { formula: 'B1' }, ' s="7"><f>B1</f></c>'],
  [
    'a formula that fails',
    { formula: 'B1', result: { error: '#N/A' } },
    ' s="7" t="e"><f>B1</f><v>#N/A</v></c>',
  ],
])('%s', (_, content, xml) => {
  expect(rowsOf(records([[content]]))).toBe(`<row r="3"><c r="A3"${xml}</row>`);
});

test('no cell where there is none, no style where the column has none, a height where a row has its own', () => {
  expect(rowsOf(records([[undefined, 2, 3]], [[0, 29]]))).toBe(
    '<row r="3" ht="29" customHeight="1"><c r="B3"><v>2</v></c><c r="C3" s="9"><v>3</v></c></row>',
  );
});

test('a column behind all others leaves those between without a cell', () => {
  const own = withColumn(records([[1]]), 3, (at) => `name ${at}`);
  expect(rowsOf(own)).toBe(
    '<row r="3"><c r="A3" s="7"><v>1</v></c><c r="C3" s="9" t="inlineStr"><is><t xml:space="preserve">name 0</t></is></c></row>',
  );
});

test('records without a row to stand in are a fault of ours', () => {
  expect(() => [...withRecords('<sheetData/>', records([[1]]))]).toThrow('No row 3');
});
