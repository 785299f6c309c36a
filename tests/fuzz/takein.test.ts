import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { expect } from 'vitest';
import { problemCodes } from '../../engine/book/problems/problem.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { readSavedWorkbook } from '../../engine/takein/read/readSavedWorkbook.ts';
import { UnreadableWorkbook } from '../../engine/takein/read/savedWorkbook.ts';
import { takeinBook } from '../../engine/takeinBook.ts';
import { sourceOf } from '../support/books.ts';
import { plainBook } from '../support/plainBook.ts';
import { workbookOf } from '../support/takein.ts';
import { fuzz } from './fuzz.ts';
import { nastyText, type Spoiling, spoiled, spoiling } from './nasty.ts';

const book = plainBook({
  products: [
    { product: 'one', price: 9, cost: 3 },
    { product: 'two', price: 5, cost: 4 },
  ],
});
const source = sourceOf(book);
const xlsx = await workbookOf(book);
const switched = switchBook(source);
if (switched.plan === undefined) throw new Error('the plain book has no plan');
const ods = await workbook(
  switched.plan,
  evaluate(switched.plan),
  { date: '2026-03-02', version: '0.0.0', files: book },
  'ods',
);
const workbooks = { xlsx, ods };

/** Takes bytes in as the command does; what it would write are files that the book has, or tables of it. */
function takeIn(file: string, bytes: Uint8Array): void {
  try {
    readSavedWorkbook(bytes);
  } catch (error) {
    expect(error).toBeInstanceOf(UnreadableWorkbook);
  }
  const report = takeinBook(source, { file, bytes, prefer: 'workbook' });
  for (const each of report.problems) {
    expect(problemCodes).toContain(each.code);
    expect(each.where.file).not.toBe('');
    expect(each.message).not.toBe('');
  }
  for (const name of report.files.keys()) expect(name).toMatch(/^(book\.yaml|[a-z_]+\.csv)$/);
}

const format = fc.constantFrom('xlsx' as const, 'ods' as const);

interface Flip {
  readonly at: number;
  readonly to: number;
  readonly length: number;
}
const flip: fc.Arbitrary<Flip> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  to: fc.nat(255),
  length: fc.constantFrom(1, 1, 2, 4, 100),
});
fuzz(
  'workbook-bytes',
  fc.tuple(
    format,
    fc.array(flip, { minLength: 1, maxLength: 6 }),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.boolean(),
  ),
  40,
  ([which, flips, cut, isCut]) => {
    const bytes = Uint8Array.from(workbooks[which]);
    // Half of the flips hit the directory at the end, of which there is little.
    flips.forEach(({ at, to, length }, index) => {
      const within = index % 2 === 0 ? bytes.length : Math.min(3000, bytes.length);
      const start = bytes.length - within + Math.floor(at * (within - 1));
      bytes.fill(to, start, start + length);
    });
    takeIn(`book.${which}`, isCut ? bytes.slice(0, Math.floor(cut * bytes.length)) : bytes);
  },
);

fuzz('any-bytes', fc.tuple(fc.uint8Array({ maxLength: 400 }), fc.boolean()), 60, ([given, isZip]) => {
  // An input that was kept is an object of numbers.
  const bytes = Uint8Array.from(Object.values(given));
  takeIn('book.xlsx', isZip ? Uint8Array.from([0x50, 0x4b, 3, 4, ...bytes]) : bytes);
});

/** Parts of a workbook spoiled within their XML: attributes and texts are the cells of it. */
const spoiledParts = fc.tuple(
  format,
  fc.array(fc.tuple(fc.nat(40), spoiling), { minLength: 1, maxLength: 3 }),
  fc.array(fc.tuple(fc.nat(40), fc.nat(2000), nastyText), { maxLength: 3 }),
);
fuzz('workbook-parts', spoiledParts, 15, ([which, parts, values]) => {
  const all = unzipSync(workbooks[which]);
  const names = Object.keys(all).filter((name) => name.endsWith('.xml') || name.endsWith('.rels'));
  const change = (number: number, how: (xml: string) => string): void => {
    const name = names[number % names.length] ?? '';
    all[name] = strToU8(how(strFromU8(all[name] ?? new Uint8Array())));
  };
  for (const [number, each] of parts as [number, Spoiling][]) change(number, (xml) => spoiled(xml, each));
  for (const [number, which, text] of values)
    change(number, (xml) => {
      // The text or attribute of that number, whole: the XML stays well-formed, its matter is nobody's.
      let count = 0;
      const places = [...xml.matchAll(/"[^"<]*"|>[^<]+</g)].length || 1;
      return xml.replace(/"[^"<]*"|>[^<]+</g, (found) =>
        count++ === which % places
          ? `${found[0]}${text.replace(/[&<>"]/g, (letter) => `&#${letter.charCodeAt(0)};`)}${found.at(-1)}`
          : found,
      );
    });
  takeIn(`book.${which}`, zipSync(all));
});
