import { describe, expect, test } from 'vitest';
import { parseCsv } from '../../engine/book/files/csvFile.ts';
import { parseYaml } from '../../engine/book/files/yamlFile.ts';
import {
  mostColumns,
  mostColumnsOfAll,
  mostHeadings,
  mostRows,
  mostSheetRows,
} from '../../engine/book/limits.ts';
import { priceBook } from '../../engine/priceBook.ts';
import { demoBook, shipped, sourceOf } from '../support/books.ts';
import { plainBook } from '../support/plainBook.ts';

const small = plainBook({ products: [{ product: 'one', price: 9, cost: 3 }] });

/** Codes of what is wrong with the small book when these files stand in it. */
function codes(files: Readonly<Record<string, string>>): string[] {
  const { problems } = priceBook(sourceOf(new Map([...small, ...Object.entries(files)])));
  return [...new Set(problems.filter(({ severity }) => severity === 'error').map(({ code }) => code))];
}

describe('YAML that grows or nests', () => {
  // The billion laughs, in YAML.
  const laughs = `a: &a [x, x, x, x, x, x, x, x, x]\n${[...'bcdefghi']
    .map((name, at) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghi'[at]}`).join(', ')}]`)
    .join('\n')}\n`;
  test.each([
    ['repeats itself without bound', laughs],
    ['leads back to itself', 'a: &a [*a]\n'],
    ['nests brackets', `a: ${'['.repeat(100_000)}`],
    ['nests braces', `a: ${'{a: '.repeat(100_000)}`],
    ['nests lists', `a:\n${'- '.repeat(50_000)}x\n`],
    ['nests names', Array.from({ length: 5000 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
    ['is one long word', 'x'.repeat(5_000_000)],
    ['is all colons', ':'.repeat(200_000)],
    ['is all question marks', '? '.repeat(20_000)],
    ['opens quotation marks', `a: "${'\\'.repeat(100_001)}`],
    ['has tags and anchors of no end', `a: ${'!x &y '.repeat(20_000)}`],
    ['brings documents without end', '---\n'.repeat(20_000)],
  ])('is told of, in the settings and in a sheet file: %s', (_, text) => {
    expect(codes({ 'book.yaml': text }).length).toBeGreaterThan(0);
    expect(codes({ 'sheets/own.yaml': text }).length).toBeGreaterThan(0);
  });

  test('cannot name what every object of the language has', () => {
    const { data } = parseYaml(
      'x.yaml',
      '__proto__: { polluted: yes }\nconstructor: { prototype: { polluted: yes } }\n',
    );
    expect(data).toBeDefined();
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});

describe('tables', () => {
  test(`of ${mostRows} lines are read, of one more are not`, () => {
    const lines = (count: number): string => `a,b\n${'1,2\n'.repeat(count - 2)}1,2`;
    expect(parseCsv('t.csv', lines(mostRows)).rows.length).toBe(mostRows - 1);
    expect(parseCsv('t.csv', lines(mostRows + 1)).problems.map(({ code }) => code)).toEqual(['too-large']);
  });

  test(`of ${mostHeadings} columns are read, of one more are not; nor of too many cells`, () => {
    const row = (cells: number): string => `${'a,'.repeat(cells - 1)}a\n`;
    expect(parseCsv('t.csv', row(mostHeadings)).headings.length).toBe(mostHeadings);
    expect(parseCsv('t.csv', row(mostHeadings + 1)).problems.map(({ code }) => code)).toEqual(['too-large']);
    expect(parseCsv('t.csv', row(900).repeat(12_000)).problems.map(({ code }) => code)).toEqual([
      'too-large',
    ]);
  });

  test.each([
    ['one long heading', `${'x'.repeat(5_000_000)}\n1\n`],
    ['a heading of brackets', `${'('.repeat(200_000)}\n1\n`],
    ['one long cell', `material\n${'x'.repeat(5_000_000)}\n`],
    ['quotation marks', '"'.repeat(1_000_001)],
    ['line ends', '\r'.repeat(400_000)],
    ['zero bytes', '\0'.repeat(1_000_000)],
    ['blanks', ' '.repeat(1_000_000)],
  ])('of nothing but %s are told of', (_, text) => {
    expect(codes({ 'materials.csv': text }).length).toBeGreaterThan(0);
  });
});

describe('what a small book lays out', () => {
  test('sizes times products', () => {
    const sizes = `run,size,measure\n${Array.from({ length: 1001 }, (_, at) => `r,s${at},${at + 1}`).join('\n')}\n`;
    const products = `product,weave,over_cord,size_run\n${Array.from({ length: 1000 }, (_, at) => `p${at},bar,cord,r`).join('\n')}\n`;
    expect(codes({ 'sizes.csv': sizes, 'products.csv': products })).toContain('too-large');
  });

  test('each row of one sheet with each of another', () => {
    const list = (name: string, count: number): string =>
      `sheet: ${name}\ntitle: ${name}\nanswers: a\nplace: 900\nrows: { list: [${Array.from({ length: count }, (_, at) => `{ ${name}: k${at} }`).join(', ')}] }\nkey: ${name}\ncolumns:\n  - { id: ${name}, heading: K, kind: key }\n`;
    const cross =
      'sheet: pairs\ntitle: Pairs\nanswers: a\nplace: 901\nrows: { cross: xs, with: ys }\nkey: [xs, ys]\ncolumns:\n  - { id: xs, heading: X, kind: key }\n  - { id: ys, heading: Y, kind: key }\n';
    const side = Math.ceil(Math.sqrt(mostSheetRows)) + 1;
    expect(
      codes({ 'sheets/x.yaml': list('xs', side), 'sheets/y.yaml': list('ys', side), 'sheets/z.yaml': cross }),
    ).toContain('too-large');
  });

  const chain = (count: number): string =>
    `sheet: chain\ntitle: Chain\nanswers: a\nplace: 900\nrows: { each: products }\nkey: product\ncolumns:\n  - { id: product, heading: P, kind: key }\n  - { id: c0, heading: C0, kind: number, formula: "1" }\n${Array.from({ length: count }, (_, at) => `  - { id: c${at + 1}, heading: C${at + 1}, kind: number, formula: c${at} + 1 }`).join('\n')}\n`;
  test('columns that each need the one before, to the last that may be', () => {
    expect(codes({ 'sheets/chain.yaml': chain(mostColumns - 3) })).toEqual([]);
    expect(codes({ 'sheets/chain.yaml': chain(mostColumns + 1) })).toEqual(['too-large']);
    // The other way about: the first needs all the others.
    const backward = chain(mostColumns - 3).replace(
      /c(\d+) \+ 1 \}/g,
      (_, at: string) => `c${Number(at) + 2} + 1 }`,
    );
    expect(codes({ 'sheets/chain.yaml': backward }).length).toBeGreaterThan(0);
  });

  test('columns of all sheets together', () => {
    const files = Object.fromEntries(
      [0, 1, 2, 3].map((at) => [
        `sheets/chain${at}.yaml`,
        chain(mostColumnsOfAll / 4)
          .replace('sheet: chain', `sheet: chain${at}`)
          .replace('title: Chain', `title: Chain${at}`),
      ]),
    );
    expect(codes(files)).toEqual(['too-large']);
  });

  test.each([
    ['brackets', `${'('.repeat(50_000)}1`],
    ['signs', `${'-'.repeat(50_000)}1`],
    ['functions', `${'IF('.repeat(50_000)}1`],
    ['keys', `${'products[product].'.repeat(1)}${'a['.repeat(20_000)}`],
    ['operators', `1${'+1'.repeat(50_000)}`],
    ['powers', `1${'^1'.repeat(50_000)}`],
    ['arguments', `SUM(${'1,'.repeat(50_000)}1)`],
    ['digits', '9'.repeat(50_000)],
    ['text', `"${'x'.repeat(1_000_000)}"`],
  ])('a formula of a great many %s', (_, formula) => {
    const sheet = `sheet: own\ntitle: Own\nanswers: a\nplace: 900\nrows: { each: products }\nkey: product\ncolumns:\n  - { id: product, heading: P, kind: key }\n  - id: c\n    heading: C\n    kind: text\n    formula: ${JSON.stringify(formula)}\n`;
    expect(() => codes({ 'sheets/own.yaml': sheet })).not.toThrow();
  });
});

test('products, columns, settings and sheets may be called what every object of the language has', () => {
  for (const name of ['__proto__', 'constructor', 'toString', 'hasOwnProperty']) {
    const files = new Map(demoBook('starter'));
    files.set('products.csv', (files.get('products.csv') ?? '').replaceAll('wrist medium', name));
    files.set('materials.csv', (files.get('materials.csv') ?? '').replace(/^([^\n]*)/m, `$1,${name}`));
    files.set('book.yaml', `${files.get('book.yaml')}\n${name}: 1\n`);
    files.set(`sheets/${name}.yaml`, `sheet: ${name}\n${name}: 1\n`);
    const { problems } = priceBook({ book: files, ...shipped });
    expect(problems.some(({ found }) => found === name)).toBe(true);
  }
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});
