import { strToU8, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { readSavedValues } from './savedValues.ts';

function xlsx(sheetData: string, sharedStrings = ''): Uint8Array {
  const parts: Readonly<Record<string, string>> = {
    'xl/workbook.xml':
      '<workbook><sheets><sheet name="A &amp; B" sheetId="1" r:id="rId9"/></sheets></workbook>',
    'xl/_rels/workbook.xml.rels':
      '<Relationships><Relationship Target="worksheets/one.xml" Type="t" Id="rId9"/></Relationships>',
    'xl/worksheets/one.xml': `<worksheet><cols><col min="1"/></cols><sheetData>${sheetData}</sheetData></worksheet>`,
    'xl/sharedStrings.xml': `<sst>${sharedStrings}</sst>`,
  };
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])));
}

const first = (sheetData: string, sharedStrings = ''): unknown =>
  [...readSavedValues(xlsx(sheetData, sharedStrings))][0];

test('numbers, booleans, errors, text and gaps, in their places', () => {
  const rows =
    '<row r="2"><c r="A2" t="n"><v>6.6E-011</v></c><c r="AB2" s="3"><v>1</v></c></row>' +
    '<row r="3"><c r="A3" t="b"><f>1=1</f><v>1</v></c><c r="B3" t="e"><v>#N/A</v></c><c r="C3" s="1"/>' +
    '<c r="D3" t="str"><f>""</f><v></v></c></row>';
  const wide = [...Array.from({ length: 27 }, (_, index) => (index === 0 ? 6.6e-11 : null)), 1];
  expect(first(rows)).toEqual(['A & B', [[], wide, [true, { error: '#N/A' }, null, '']]]);
});

test('shared text: runs joined, readings left out, entities and escapes undone', () => {
  const shared =
    '<si><t>a &lt;b&gt; &#233;&#xe9; &quot;</t></si><si><r><t>one </t></r><r><t xml:space="preserve">two</t></r></si>' +
    '<si/><si><t>x</t><rPh sb="0" eb="1"><t>y</t></rPh></si><si><t>_x005F_x000D_</t></si>';
  const cells = ['A', 'B', 'C', 'D', 'E'].map(
    (column, index) => `<c r="${column}1" t="s"><v>${index}</v></c>`,
  );
  expect(first(`<row r="1">${cells.join('')}</row>`, shared)).toEqual([
    'A & B',
    [['a <b> éé "', 'one two', '', 'x', '_x000D_']],
  ]);
});

test('what is no xlsx is refused', () => {
  expect(() => readSavedValues(strToU8('not a zip'))).toThrow();
  expect(() => readSavedValues(zipSync({ 'a.txt': strToU8('a') }))).toThrow('no sheets found');
  expect(() => first('<row r="1"><c r="A1"><v>abc</v></c></row>')).toThrow('not a number');
});

test('20 sheets of 10,000 rows would take seconds: one takes well under one', () => {
  const rows = Array.from(
    { length: 10_000 },
    (_, row) =>
      `<row r="${row + 1}"><c r="A${row + 1}" t="n"><v>${row}</v></c><c r="B${row + 1}"><v>2</v></c></row>`,
  );
  const file = xlsx(rows.join(''));
  const started = performance.now();
  expect(readSavedValues(file).get('A & B')).toHaveLength(10_000);
  expect(performance.now() - started).toBeLessThan(2000);
});
