import fc from 'fast-check';
import { expect } from 'vitest';
import { parseCsv } from '../../engine/book/files/csvFile.ts';
import { parseForce } from '../../engine/book/measures/force.ts';
import { parseMeasure } from '../../engine/book/measures/measure.ts';
import { parseNumber } from '../../engine/book/measures/numberText.ts';
import { parseWeight, parseWeightOfLength } from '../../engine/book/measures/weight.ts';
import { type Problem, problemCodes } from '../../engine/book/problems/problem.ts';
import { problemText } from '../../engine/book/problems/problemText.ts';
import { openBook, priceBook } from '../../engine/priceBook.ts';
import { compile } from '../../engine/sheets/compile.ts';
import { parseFormula } from '../../engine/sheets/parseFormula.ts';
import { readSheetFile } from '../../engine/sheets/readSheetFile.ts';
import { parseChange } from '../../engine/whatif/words/parseChange.ts';
import { demoBook, pricedBook, sourceOf } from '../support/books.ts';
import { fuzz } from './fuzz.ts';
import { nastyText, type Spoiling, spoiled, spoiling } from './nasty.ts';

/** A problem is of a kind that is documented, stands somewhere, and can be told. */
function wellTold(problems: readonly Problem[]): void {
  for (const each of problems.slice(0, 200)) {
    expect(problemCodes).toContain(each.code);
    expect(each.where.file).not.toBe('');
    expect(each.message).not.toBe('');
    expect(problemText(each).length).toBeGreaterThan(0);
  }
}

const mark = fc.constantFrom('point' as const, 'comma' as const);
const figure = fc.oneof(
  nastyText,
  fc
    .array(
      fc.constantFrom(
        '1',
        '7',
        '1/2',
        '0',
        '.',
        ',',
        ' ',
        '-',
        '+',
        'in',
        'ft',
        '"',
        "'",
        'lb',
        'oz',
        'g/m',
        ' per ',
        '/',
        'kN',
        '\u00a0',
        '⁄',
        '−',
        'e9',
      ),
      { maxLength: 40 },
    )
    .map((parts) => parts.join('')),
);
fuzz('measures', fc.tuple(figure, mark), 4000, ([text, decimal]) => {
  for (const value of [
    parseNumber(text, decimal),
    parseMeasure(text, decimal)?.value,
    parseWeight(text, decimal)?.value,
    parseForce(text, decimal)?.value,
    parseWeightOfLength(text, decimal)?.weight.value,
    parseWeightOfLength(text, decimal)?.length.value,
  ])
    if (value !== undefined) expect(Number.isFinite(value), `${JSON.stringify(text)} is ${value}`).toBe(true);
});

fuzz('tables', fc.tuple(fc.array(spoiling, { maxLength: 4 }), nastyText), 200, ([spoilings, start]) => {
  const text = spoilings.reduce(spoiled, `${start}\n${demoBook('starter').get('materials.csv') ?? ''}`);
  const csv = parseCsv('materials.csv', text);
  wellTold(csv.problems);
  for (const { row } of csv.rows) expect(row).toBeGreaterThan(0);
});

const formulaPart = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      '1',
      '2.5',
      '"a"',
      'price',
      'materials[cord].unit_cost',
      'SUM(cuts.cost)',
      'IF(1,2,3)',
      'WRITTEN(families[family].take_up)',
      'TRUE',
    ),
  },
  {
    weight: 4,
    arbitrary: fc.constantFrom(
      '+',
      '-',
      '*',
      '/',
      '^',
      '&',
      '=',
      '<>',
      '(',
      ')',
      '[',
      ']',
      '.',
      ',',
      'ROUND(',
      'IF(',
    ),
  },
  { weight: 1, arbitrary: nastyText },
);
const formulaText = fc.array(formulaPart, { maxLength: 60 }).map((parts) => parts.join(''));
fuzz('formulas', formulaText, 3000, (text) => {
  const parsed = parseFormula(text);
  if ('fault' in parsed) {
    expect(parsed.fault.at).toBeGreaterThanOrEqual(0);
    expect(parsed.fault.at).toBeLessThanOrEqual(text.length);
    expect(parsed.fault.mend).not.toBe('');
  }
});

const ownSheet = `sheet: labels
title: Labels
answers: What stands on the label?
place: 900
rows: { each: products }
key: product
columns:
  - id: product
    heading: Product
    kind: key
  - id: price
    heading: Price
    kind: money
    formula: FORMULA
`;
fuzz(
  'sheets',
  fc.record({ formula: formulaText, spoilings: fc.array(spoiling, { maxLength: 3 }) }),
  25,
  ({ formula, spoilings }) => {
    const text = spoilings.reduce(
      spoiled,
      ownSheet.replace('FORMULA', () => JSON.stringify(formula)),
    );
    wellTold(readSheetFile('sheets/labels.yaml', text).problems);
    const opened = openBook(sourceOf(new Map([...demoBook('metric'), ['sheets/labels.yaml', text]])));
    wellTold(opened.problems);
    if (opened.book !== undefined) wellTold(compile(opened.definitions, opened.book).problems);
  },
);

const { plan } = pricedBook(demoBook('metric'));
fuzz(
  'changes',
  fc.oneof(
    nastyText,
    fc.array(nastyText, { maxLength: 3 }).map((parts) => `cord ${parts.join(' ')}`),
  ),
  500,
  (text) => {
    const found = parseChange(text, plan);
    if ('mend' in found) expect(found.mend).not.toBe('');
  },
);

const file = fc.constantFrom(...demoBook('metric').keys());
const spoilings: fc.Arbitrary<readonly (readonly [string, Spoiling])[]> = fc.array(fc.tuple(file, spoiling), {
  minLength: 1,
  maxLength: 4,
});
fuzz('books', spoilings, 25, (all) => {
  const book = new Map(demoBook('metric'));
  for (const [name, each] of all) book.set(name, spoiled(book.get(name) ?? '', each));
  wellTold(priceBook(sourceOf(book)).problems);
});
