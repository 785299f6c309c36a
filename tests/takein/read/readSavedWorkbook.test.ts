import { mkdtempSync } from 'node:fs';
import { readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { workbook } from '../../../engine/export/workbook.ts';
import { readSavedWorkbook } from '../../../engine/takein/read/readSavedWorkbook.ts';
import type { SavedWorkbook } from '../../../engine/takein/read/savedWorkbook.ts';
import { demoBook, pricedBook } from '../../support/books.ts';
import { convertTo, findLibreOffice } from '../../support/libreoffice.ts';
import { workbookFault as faultOf } from '../../support/workbookFault.ts';

const { plan, values } = pricedBook(demoBook('metric'));
const written = await workbook(plan, values, { date: '2026-03-02', version: '0.0.0' });

/** The written workbook with one of its parts replaced. */
function withPart(name: string, change: (xml: string) => string): Uint8Array {
  const parts = unzipSync(written);
  return zipSync({ ...parts, [name]: strToU8(change(new TextDecoder().decode(parts[name]))) });
}

/** Values by sheet and cell, numbers as far as every program keeps them; of what is worked out, only that it is. */
function valuesOf({ sheets }: SavedWorkbook): Map<string, unknown> {
  return new Map(
    sheets.flatMap(({ title, rows }) =>
      [...rows].flatMap(([row, cells]) =>
        [...cells].map(([column, { value, formula }]) => [
          `${title} ${row} ${column}`,
          formula !== undefined
            ? 'formula'
            : typeof value === 'number'
              ? Number(value.toPrecision(15))
              : value,
        ]),
      ),
    ),
  );
}

test('every input of the plan is read from the workbook as it was written', () => {
  const saved = readSavedWorkbook(written);
  for (const sheet of plan.sheets.filter(({ layout }) => layout === 'table')) {
    const rows = saved.sheets.find(({ title }) => title === sheet.title)?.rows;
    sheet.columns.forEach((column, at) => {
      column.inputs?.forEach((input, row) => {
        expect(rows?.get(row + 3)?.get(at + 1)?.value ?? null, `${sheet.id}.${column.id}`).toBe(input);
      });
    });
  }
});

describe.skipIf(findLibreOffice() === undefined)('saved again by LibreOffice', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'sennit-read-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test.each(['ods', 'xlsx'] as const)('as %s it holds the same values, hidden ones too', async (format) => {
    const file = join(folder, `${format}-source.xlsx`);
    await writeFile(file, written);
    const outDir = mkdtempSync(join(folder, format));
    const saved = readSavedWorkbook(await readFile(await convertTo(file, format, outDir)));
    expect(saved.format).toBe(format);
    const [now, before] = [valuesOf(saved), valuesOf(readSavedWorkbook(written))];
    expect([...now.keys()].sort()).toEqual([...before.keys()].sort());
    // Programs do not all round the fifteenth digit alike.
    for (const [where, value] of before) {
      if (typeof value === 'number')
        expect(Number(now.get(where)) / (value || 1), where).toBeCloseTo(value ? 1 : 0, 12);
      else expect(now.get(where), where).toBe(value);
    }
  });
});

describe('a file that is not read', () => {
  test('was cut off, or has a byte changed', () => {
    expect(faultOf(written.slice(0, written.length - 100))).toBe('not-whole');
    expect(faultOf(written.slice(0, 40))).toBe('not-whole');
    const bytes = Uint8Array.from(written);
    // In the midst of the sheets, beyond the heads of small parts.
    const middle = Math.floor(bytes.length / 2);
    for (let at = middle; at < middle + 40; at += 1) bytes[at] = (bytes[at] ?? 0) ^ 0xff;
    expect(faultOf(bytes)).toBe('damaged');
  });

  test('is of another kind', () => {
    expect(faultOf(strToU8('material,price\nslate cord,61\n'))).toBe('other');
    expect(faultOf(new Uint8Array())).toBe('empty');
    expect(faultOf(zipSync({ 'readme.txt': strToU8('hello') }))).toBe('other');
    expect(faultOf(zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.text') }))).toBe('other');
    const binary =
      '<Types><Override PartName="/xl/workbook.bin" ContentType="application/vnd.ms-excel.sheet.binary.macroEnabled.main"/></Types>';
    expect(faultOf(zipSync({ '[Content_Types].xml': strToU8(binary) }))).toBe('binary');
  });

  test('is encrypted, or of the older format', () => {
    const old = new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...new Uint8Array(600)]);
    expect(faultOf(old)).toBe('old');
    const name = new Uint8Array([...'EncryptedPackage'].flatMap((letter) => [letter.charCodeAt(0), 0]));
    const locked = Uint8Array.from(old);
    locked.set(name, 100);
    expect(faultOf(locked)).toBe('locked');
    const ods = {
      mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'),
      'META-INF/manifest.xml': strToU8(
        '<m:manifest xmlns:m="m"><m:file-entry><m:encryption-data/></m:file-entry></m:manifest>',
      ),
      'content.xml': strToU8('not xml'),
    };
    expect(faultOf(zipSync(ods))).toBe('locked');
  });

  test('expands to far more than it is, by what it says or by what it holds', () => {
    const parts = unzipSync(written);
    const bomb = zipSync({ ...parts, 'xl/worksheets/sheet1.xml': new Uint8Array(60_000_000) }, { level: 9 });
    expect(bomb.length).toBeLessThan(1_000_000);
    expect(faultOf(bomb)).toBe('too-large');
    // The directory says 100 bytes; more come out.
    const lying = Uint8Array.from(
      zipSync({ ...parts, 'xl/worksheets/sheet1.xml': new Uint8Array(5_000_000) }),
    );
    const view = new DataView(lying.buffer);
    for (let at = lying.length - 60; at > 0; at -= 1)
      if (view.getUint32(at, true) === 0x02014b50 && view.getUint32(at + 24, true) === 5_000_000)
        view.setUint32(at + 24, 100, true);
    expect(faultOf(lying)).toBe('damaged');
    const many = zipSync(
      Object.fromEntries(Array.from({ length: 5001 }, (_, at) => [`${at}.xml`, new Uint8Array()])),
    );
    expect(faultOf(many)).toBe('too-large');
  });

  test('brings entities of its own, is no XML, or repeats a cell without end', () => {
    const doctype = '<!DOCTYPE a [<!ENTITY b "bbbbbbbb"><!ENTITY c "&b;&b;&b;&b;">]>';
    expect(faultOf(withPart('xl/workbook.xml', (xml) => xml.replace('?>', `?>${doctype}`)))).toBe('damaged');
    expect(faultOf(withPart('xl/sharedStrings.xml', (xml) => xml.slice(0, -20)))).toBe('damaged');
    const repeated = `<o:document-content xmlns:o="o" xmlns:table="t" xmlns:office="f"><table:table table:name="a"><table:table-row table:number-rows-repeated="1048576"><table:table-cell table:number-columns-repeated="16384" office:value-type="float" office:value="1"/></table:table-row></table:table></o:document-content>`;
    const ods = {
      mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'),
      'content.xml': strToU8(repeated),
    };
    expect(faultOf(zipSync(ods))).toBe('too-large');
  });
});
