import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readArchive, UnreadableArchive } from '../../engine/archive/readArchive.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { lastColumn, lastRow, mostSheets } from '../../engine/takein/read/savedWorkbook.ts';
import { demoBook, pricedBook } from '../support/books.ts';
import { workbookFault as faultOf } from '../support/workbookFault.ts';

/*
 * Sources: the ZIP format (APPNOTE 6.3.10); D. Fifield, A better zip bomb (USENIX WOOT 2019), for parts that share
 * their bytes; OWASP, XML External Entity Prevention; last row and column: ECMA-376 programs, from memory.
 */
const { plan, values } = pricedBook(demoBook('metric'));
const written = await workbook(plan, values, { date: '2026-03-02', version: '0.0.0' });
const parts = unzipSync(written);

const ods = (content: string): Uint8Array =>
  zipSync({
    mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'),
    'content.xml': strToU8(
      `<o:document-content xmlns:o="o" xmlns:table="t" xmlns:office="f" xmlns:text="x">${content}</o:document-content>`,
    ),
  });
const sheet = (cells: string): Uint8Array =>
  zipSync({
    ...parts,
    'xl/worksheets/sheet1.xml': strToU8(
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${cells}</sheetData></worksheet>`,
    ),
  });

/** Bytes with a mark of the ZIP format found in them, changed there. */
function patched(bytes: Uint8Array, mark: number, change: (view: DataView, at: number) => void): Uint8Array {
  const copy = Uint8Array.from(bytes);
  const view = new DataView(copy.buffer);
  for (let at = 0; at < copy.length - 46; at += 1) if (view.getUint32(at, true) === mark) change(view, at);
  return copy;
}

describe('an archive that was made to do harm', () => {
  test('has parts that share their bytes', () => {
    // Both parts of the directory lead to the first one.
    const two = zipSync({ 'a.xml': strToU8('a'.repeat(50)), 'b.xml': strToU8('a'.repeat(50)) }, { level: 0 });
    expect(faultOf(two)).toBe('other');
    expect(faultOf(patched(two, 0x02014b50, (view, at) => view.setUint32(at + 42, 0, true)))).toBe('damaged');
  });

  test('says other sizes, methods or names in the head of a part than in its directory', () => {
    const plain = zipSync({ 'a.xml': strToU8('hello') }, { level: 0 });
    expect(faultOf(plain)).toBe('other');
    expect(faultOf(patched(plain, 0x04034b50, (view, at) => view.setUint32(at + 22, 6, true)))).toBe(
      'damaged',
    );
    expect(faultOf(patched(plain, 0x04034b50, (view, at) => view.setUint16(at + 8, 8, true)))).toBe(
      'damaged',
    );
    expect(faultOf(patched(plain, 0x04034b50, (view, at) => view.setUint8(at + 30, 0x62)))).toBe('damaged');
    // Four thousand million bytes.
    expect(faultOf(patched(plain, 0x02014b50, (view, at) => view.setUint32(at + 24, 0xfffffff0, true)))).toBe(
      'too-large',
    );
  });

  test.each(['../../evil.xml', '/etc/evil.xml', 'C:/evil.xml', 'xl/../../evil.xml', '..\\evil.xml'])(
    'has a part that is called %s',
    (name) => {
      expect(faultOf(zipSync({ ...parts, [name]: strToU8('x') }))).toBe('damaged');
    },
  );

  test('has parts called as what every object of the language has', () => {
    for (const name of ['__proto__', 'constructor', 'toString'])
      expect(
        faultOf(zipSync(Object.fromEntries([...Object.entries(parts), [`xl/${name}`, strToU8('x')]]))),
      ).toBe('read');
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });

  test('has one part as several sheets, each of which would be read', () => {
    const named = (ids: (id: string) => string): Uint8Array =>
      zipSync({
        ...parts,
        'xl/workbook.xml': strToU8(
          new TextDecoder()
            .decode(parts['xl/workbook.xml'])
            .replace(/r:id="(rId\d+)"/g, (_, id) => `r:id="${ids(id)}"`),
        ),
      });
    expect(faultOf(named((id) => id))).toBe('read');
    const first =
      /<sheet [^>]*r:id="(rId\d+)"/.exec(new TextDecoder().decode(parts['xl/workbook.xml']))?.[1] ?? '';
    expect(faultOf(named(() => first))).toBe('damaged');
  });

  test('asks for more bytes than any workbook has, part by part', () => {
    const archive = readArchive(zipSync({ 'a.xml': new Uint8Array(19_000_000) }));
    const readAll = (): void => {
      for (let count = 0; count < 106; count += 1) archive.pieces('a.xml');
    };
    expect(readAll).toThrow(UnreadableArchive);
  });

  test('holds no large part as a whole, and says at its end what a part lacks', () => {
    const bytes = zipSync({ 'a.xml': new Uint8Array(19_000_000), 'b.xml': new Uint8Array(300_000).fill(32) });
    const view = new DataView(bytes.buffer);
    const patched = (field: number, was: number, now: number): Uint8Array => {
      const copy = bytes.slice();
      for (let at = 0; at < bytes.length - 46; at += 1) {
        const head = { 33639248: 24, 67324752: 22 }[view.getUint32(at, true)];
        if (head === undefined || view.getUint32(at + head, true) !== was) continue;
        new DataView(copy.buffer).setUint32(at + head + field, now, true);
      }
      return copy;
    };
    // Within the limits of a part and of its ratio, and still more than is held at once.
    const large = zipSync({ 'a.xml': [new Uint8Array(201_000_000), { level: 0 }] });
    expect(() => readArchive(large).read('a.xml')).toThrow(UnreadableArchive);
    // A wrong check sum, eight bytes before the length; a length that is too short.
    for (const wrong of [patched(-8, 300_000, 1), patched(0, 300_000, 299_999)]) {
      const pieces = readArchive(wrong).pieces('b.xml') ?? [];
      expect(() => [...pieces]).toThrow(UnreadableArchive);
    }
    expect([...(readArchive(bytes).pieces('b.xml') ?? [])].reduce((sum, { length }) => sum + length, 0)).toBe(
      300_000,
    );
  });
});

describe('a sheet that was made to do harm', () => {
  test.each([
    [`<row r="${lastRow}"><c r="A${lastRow}"><v>1</v></c></row>`, 'read'],
    [`<row r="${lastRow + 1}"><c><v>1</v></c></row>`, 'damaged'],
    ['<row r="4000000000"><c><v>1</v></c></row>', 'damaged'],
    ['<row r="-1"><c><v>1</v></c></row>', 'damaged'],
    ['<row r="1e999"><c><v>1</v></c></row>', 'damaged'],
    ['<row r="NaN"><c><v>1</v></c></row>', 'damaged'],
    ['<row r="1"><c r="XFD1"><v>1</v></c></row>', 'read'],
    ['<row r="1"><c r="XFE1"><v>1</v></c></row>', 'damaged'],
    ['<row r="1"><c r="A1"><v>1e999</v></c></row>', 'damaged'],
    [`<row r="1"><c r="A1"><v>${'9'.repeat(400)}</v></c></row>`, 'damaged'],
    ['<row r="1"><c r="A1" t="s"><v>99999999</v></c></row>', 'read'],
    ['<row r="1"><c r="A1" t="s"><v>__proto__</v></c></row>', 'read'],
    ['<row r="1"><c r="A1" s="99999999"><v>1</v></c></row>', 'read'],
    ['<row r="1"><c r="A1" t="__proto__"><v>1</v></c></row>', 'read'],
  ])('with %s is %s (.xlsx)', (cells, told) => {
    expect(faultOf(sheet(cells))).toBe(told);
  });

  const cell = (more: string): string =>
    `<table:table table:name="a"><table:table-row ${more.includes('rows-') ? more : ''}><table:table-cell ${more.includes('columns-') ? more : ''} office:value-type="float" office:value="1"/></table:table-row></table:table>`;
  test.each([
    [cell(''), 'read'],
    [cell(`table:number-columns-repeated="${lastColumn}"`), 'read'],
    [cell(`table:number-columns-repeated="${lastColumn + 1}"`), 'too-large'],
    [cell(`table:number-rows-repeated="${lastRow + 1}"`), 'too-large'],
    [cell('table:number-rows-repeated="1e15"'), 'too-large'],
    [cell('').repeat(mostSheets), 'read'],
    [cell('').repeat(mostSheets + 1), 'too-large'],
  ])('with %s is %s (.ods)', (content, told) => {
    expect(faultOf(ods(content))).toBe(told);
  });

  test('nests its elements without end', () => {
    const deep = (levels: number): string => `${'<text:p>'.repeat(levels)}${'</text:p>'.repeat(levels)}`;
    expect(faultOf(ods(deep(199)))).toBe('read');
    expect(faultOf(ods(deep(200)))).toBe('damaged');
    expect(faultOf(ods(deep(300_000)))).toBe('damaged');
  });

  test.each([
    ['<!DOCTYPE a SYSTEM "file:///etc/passwd">', ''],
    ['<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>', '&b;'],
    ['<!DOCTYPE a [<!ENTITY % b SYSTEM "http://127.0.0.1/x.dtd"> %b;]>', ''],
    ['', '&undefined;'],
  ])('brings a document type or entities: %s %s', (before, within) => {
    const xml = `<?xml version="1.0"?>${before}<worksheet><sheetData><row><c t="inlineStr"><is><t>${within}</t></is></c></row></sheetData></worksheet>`;
    expect(faultOf(zipSync({ ...parts, 'xl/worksheets/sheet1.xml': strToU8(xml) }))).toBe('damaged');
  });
});
