import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { workbook } from '../../engine/export/workbook.ts';
import { originOf } from '../../engine/origin/originOf.ts';
import { provenanceOf } from '../../engine/origin/provenance.ts';
import { type BookText, demoBook, pricedBook } from '../support/books.ts';

const starter = demoBook('starter');
const from = (book: BookText) => ({ version: '9.8.7', date: '2026-03-02', files: book });
const provenance = (book: BookText) => provenanceOf(originOf(pricedBook(book).plan, from(book)), book);

/** The book with one thing in one file said otherwise. */
const changed = (file: string, what: string, into: string): BookText => {
  const text = starter.get(file) ?? '';
  expect(text).toContain(what);
  return new Map([...starter, [file, text.replace(what, into)]]);
};

/** Every part of a workbook file, one behind the other. */
const textOf = (bytes: Uint8Array): string =>
  Object.values(unzipSync(bytes))
    .map((part) => strFromU8(part))
    .join('\n');

describe('what a workbook tells of where it comes from', () => {
  const { book, bookFiles, formulas } = provenance(starter);

  test('is the same whatever order the files come in', () => {
    expect(provenance(new Map([...starter].reverse()))).toEqual({ book, bookFiles, formulas });
    expect(bookFiles).toBe(starter.size);
    for (const each of [book, formulas]) expect(each).toMatch(/^[0-9a-f]{16}$/);
  });

  test('changes with a figure of the book, and the formulas stay', () => {
    const other = provenance(changed('overheads.csv', '\n', ' \n'));
    expect(other.book).not.toBe(book);
    expect(other.formulas).toBe(formulas);
  });

  test('changes with the name of a file', () => {
    const renamed = new Map([...starter, ['notes.csv', starter.get('used.csv') ?? '']]);
    const other = new Map([...starter, ['remarks.csv', starter.get('used.csv') ?? '']]);
    expect(provenance(renamed).book).not.toBe(provenance(other).book);
  });

  test('changes with a formula, which is a column of the maker’s own here', () => {
    const own = (formula: string): BookText =>
      new Map([
        ...starter,
        [
          'sheets/own.yaml',
          `extends: costs\ncolumns:\n  - { id: twice, heading: Twice, kind: money, formula: ${formula} }\n`,
        ],
      ]);
    expect(provenance(own('unit_cost * 2')).formulas).not.toBe(provenance(own('unit_cost * 3')).formulas);
    expect(provenance(own('unit_cost * 2')).formulas).not.toBe(formulas);
  });

  test.each(['xlsx', 'ods'] as const)('stands on the sheet Start (%s)', async (format) => {
    const { plan, values } = pricedBook(starter);
    const bytes = await workbook(plan, values, from(starter), format);
    const said = [
      `fingerprint ${book} of its ${bookFiles} files`,
      `fingerprint ${formulas}.`,
      'by Sennit 9.8.7',
    ];
    for (const each of said) expect(textOf(bytes)).toContain(each);
    expect(Buffer.compare(await workbook(plan, values, from(starter), format), bytes)).toBe(0);
  });

  test('says nothing of a book where there is none', async () => {
    const { plan, values } = pricedBook(starter);
    const text = textOf(await workbook(plan, values, { version: '1', date: '2026-03-02' }));
    expect(text).not.toMatch(/fingerprint \w+ of its/);
    expect(text).toContain(`fingerprint ${formulas}.`);
  });
});
