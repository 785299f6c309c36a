import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { workbook } from '../../../engine/export/workbook.ts';
import { packFile } from '../../../engine/export/xlsx/packFile.ts';
import { demoBook, pricedBook } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';

function packed(
  parts: Readonly<Record<string, string>>,
  date: string = '2026-03-02',
): Record<string, string> {
  const bytes = zipSync(
    Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])),
  );
  return Object.fromEntries(
    Object.entries(unzipSync(packFile(bytes, date))).map(([name, part]) => [name, strFromU8(part)]),
  );
}

test('the time of writing leaves no trace, in any zone; the date given does', () => {
  const at = (year: number): Uint8Array =>
    zipSync({ 'a.xml': [strToU8('<a/>'), { mtime: new Date(year, 1, 1) }] });
  expect(packFile(at(2020), '2026-03-02')).toEqual(packFile(at(2021), '2026-03-02'));
  expect(packFile(at(2020), '2026-03-02')).not.toEqual(packFile(at(2020), '2026-03-03'));
  expect(() => packFile(at(2020), '1970-01-01')).not.toThrow();
});

test('random ids of bars are counted instead, alike at both ends', () => {
  const id = '{6BD3B7B1-2F1A-4C84-9A51-1A2B3C4D5E6F}';
  const sheet = packed({
    'xl/worksheets/sheet1.xml': `<x14:id>${id}</x14:id><x14:cfRule type="dataBar" id="${id}"/><other>${id}</other>`,
  })['xl/worksheets/sheet1.xml'];
  expect(sheet).toBe(
    `<x14:id>{00000000-0000-4000-8000-000000000001}</x14:id><x14:cfRule type="dataBar" id="{00000000-0000-4000-8000-000000000001}"/><other>${id}</other>`,
  );
});

test('a link inside the workbook is no link to a file as well; sheets that look like cells are quoted', () => {
  const parts = packed({
    'xl/workbook.xml':
      '<definedName name="q">Q1!$B$3</definedName><definedName name="s">\'Price list\'!$B$3</definedName>',
    'xl/worksheets/sheet1.xml': '<hyperlink ref="B1" r:id="rId3" location="Rates!B3"/>',
    'xl/worksheets/_rels/sheet1.xml.rels':
      '<Relationship Id="rId3" Type="http://x/relationships/hyperlink" Target="Rates!B3" TargetMode="External"/><Relationship Id="rId1" Type="http://x/relationships/comments" Target="c"/>',
  });
  expect(parts['xl/worksheets/sheet1.xml']).toBe('<hyperlink ref="B1" location="Rates!B3"/>');
  expect(parts['xl/worksheets/_rels/sheet1.xml.rels']).toBe(
    '<Relationship Id="rId1" Type="http://x/relationships/comments" Target="c"/>',
  );
  expect(parts['xl/workbook.xml']).toContain(">'Q1'!$B$3<");
  expect(parts['xl/workbook.xml']).toContain(">'Price list'!$B$3<");
});

test('characters that no XML may hold become the mark of a lost letter', () => {
  const parts = packed({ 'xl/sharedStrings.xml': '<t>a\uFFFEb\uFFFFc 線 🪢</t>' });
  expect(parts['xl/sharedStrings.xml']).toBe('<t>a\uFFFDb\uFFFDc 線 🪢</t>');
});

test('a workbook is well formed whatever stands in the cells of its book', async () => {
  const odd = 'a\uFFFE b\uFFFF c\uD800 d\u0001 e\u001F <&> f';
  const { plan, values } = pricedBook(
    setCells(demoBook('starter'), 'materials.csv', { material: 'slate cord' }, { name: odd }),
  );
  const parts = unzipSync(await workbook(plan, values, { date: '2026-03-02', version: '1.2.3' }));
  let found = 0;
  for (const [name, part] of Object.entries(parts)) {
    const xml = new TextDecoder('utf-8', { fatal: true }).decode(part);
    // XML 1.0 (5th edition), 2.2: Char.
    expect(xml, name).not.toMatch(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/u);
    if (xml.includes('&lt;&amp;&gt; f')) found += 1;
  }
  // Where it is an input, and where formulas show it.
  expect(found).toBeGreaterThan(0);
});
