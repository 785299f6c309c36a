import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const top = join(import.meta.dirname, '../..');
const page = readFileSync(join(top, 'docs/believe.md'), 'utf8');

/** Sources that a test may name. A new one is added here, and then has to stand on the page. */
const sources = [
  'OpenStax',
  'MIL-C-5040H',
  'NIST',
  'CGPM',
  'IAS 2',
  'HMRC',
  'ISO 4217',
  'Ashley',
  'Knot Atlas',
  'Cantarella',
  'Shastri',
  'Larson',
  'cable screen',
  'Peirce',
  'Philpott',
  'Electowiki',
  'RFC 4180',
  'ODF 1.3',
  'Spearman',
  'Printed tables',
  'printed table',
  'encyclopaedia',
] as const;

const testFiles = readdirSync(join(top, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.test.ts') && !name.startsWith('docs/'))
  .map((name) => `tests/${name}`)
  .sort();
const textOf = (file: string): string => readFileSync(join(top, file), 'utf8');

interface Row {
  readonly text: string;
  readonly files: readonly string[];
  /** Words in bold: those by which the test knows its source. */
  readonly named: readonly string[];
}

function rowsUnder(heading: string): Row[] {
  const part = page.split(`## ${heading}\n`)[1]?.split('\n## ')[0] ?? '';
  return part
    .split('\n')
    .filter((line) => line.startsWith('| ') && line.includes('`tests/'))
    .map((text) => ({
      text,
      files: [...text.matchAll(/`(tests\/[^`]+)`/g)].map(([, file = '']) => file),
      named: [...text.matchAll(/\*\*([^*]+)\*\*/g)].map(([, word = '']) => word),
    }));
}

const checks = ['Second engines', 'Published numbers', 'Cord'].flatMap(rowsUnder);
const listed = (rows: readonly Row[], file: string): readonly Row[] =>
  rows.filter(({ files }) => files.includes(file));

/** Test files that say a word, in any line. */
const saying = (word: string): string[] => testFiles.filter((file) => textOf(file).includes(word));

describe('docs/believe.md', () => {
  it('has a row for each check, with its source and its test', () => {
    expect(checks.length).toBeGreaterThan(40);
    for (const { text, files, named } of checks) {
      expect(files, text).toHaveLength(1);
      expect(named.length, text).toBeGreaterThan(0);
    }
  });

  it('names tests that are there', () => {
    for (const [, file = ''] of page.matchAll(/`(tests\/[^`]+)`/g))
      expect(existsSync(join(top, file)), file).toBe(true);
  });

  it.each(checks.map((row) => ({ ...row, title: `${row.files.join()}: ${row.named.join(', ')}` })))(
    '$title',
    ({ files, named }) => {
      const text = textOf(files[0] ?? '').toLowerCase();
      for (const word of named) expect(text).toContain(word.toLowerCase());
    },
  );

  it.each(sources)('lists every test that names %s', (source) => {
    for (const file of saying(source)) {
      const named = listed(checks, file).flatMap((row) => row.named);
      expect(
        named.some((word) => word.toLowerCase().includes(source.toLowerCase())),
        `${file} names ${source}: give it a row`,
      ).toBe(true);
    }
  });

  it('lists every test in which another program works a workbook out', () => {
    const judged = testFiles.filter(
      (file) =>
        /support\/(libreoffice|ironcalc|ironCalcPlan)\.ts/.test(textOf(file)) &&
        !file.startsWith('tests/support/'),
    );
    // Pages and price lists are looked at in it, or counted as pages; nothing is worked out there.
    const engines = rowsUnder('Second engines');
    expect(
      judged.filter((file) => listed(engines, file).length === 0 && !/\/inBrowser\.test\.ts$/.test(file)),
    ).toEqual(['tests/workbook/odsFile.test.ts']);
  });

  it.each([
    ['from memory', 'From memory'],
    ['common practice', 'Common practice, without a source'],
  ])('lists every test that says “%s”, and no other', (words, heading) => {
    const rows = rowsUnder(heading);
    expect([...new Set(rows.flatMap(({ files }) => files))].sort()).toEqual(saying(words));
  });
});
