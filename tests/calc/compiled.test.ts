import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../engine/book/book.ts';
import { agrees, checkedByReference, type Disagreement, disagreements } from '../../engine/calc/agreement.ts';
import { calculate } from '../../engine/calc/compiled/calculate.ts';
import { compiledFunctions } from '../../engine/calc/compiled/functions.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import type { Values } from '../../engine/calc/values.ts';
import { compile } from '../../engine/sheets/compile.ts';
import { sheetFunctions } from '../../engine/sheets/functions.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { readDefinitions } from '../../engine/sheets/readDefinitions.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { imperial } from '../support/settings.ts';

const told = ({ sheet, column, row, one, other }: Disagreement): string =>
  `${sheet.id}.${column.id} row ${row + 1}: ${JSON.stringify(one)} against ${JSON.stringify(other)}`;

const book: Book = {
  settings: imperial,
  record: new Map(),
  tables: new Map([
    [
      'data',
      {
        name: 'data',
        rowCount: 5,
        columns: new Map<string, (string | number | null)[]>([
          ['key', ['a', 'b', 'c', 'd', 'e']],
          ['n', [0, 2.5, -3, 1e6, 0.1]],
          ['m', [1, null, 7, null, -2]],
          ['t', ['abc', 'ABC', null, 'é', '12']],
        ]),
        places: [],
      },
    ],
  ]),
};

/** Calculates formulas both ways, each in a row of its own beside a small table of numbers, text and blanks. */
function bothWays(formulas: readonly string[]): { plan: Plan; compiled: Values; reference: Values } {
  const data =
    'sheet: data\ntitle: Data\nanswers: x\nrows: {table: data}\nkey: key\ncolumns:\n  - {id: key, heading: Key, kind: key}\n  - {id: n, heading: N, kind: number}\n  - {id: m, heading: M, kind: number}\n  - {id: t, heading: T, kind: text}\n';
  const probe = {
    sheet: 'probe',
    title: 'Probe',
    answers: 'x',
    rows: { list: formulas.map((formula, at) => ({ name: `row ${at}`, f: formula })) },
    columns: [
      { id: 'name', heading: 'Name', kind: 'key' },
      { id: 'f', heading: 'F', kind: 'number', formula: 'by row' },
    ],
  };
  const { definitions, problems } = readDefinitions(
    new Map([
      ['data.yaml', data],
      ['probe.yaml', JSON.stringify(probe)],
    ]),
  );
  const { plan, problems: more } = compile(definitions, book);
  expect([...problems, ...more]).toEqual([]);
  return { plan, compiled: calculate(plan), reference: evaluate(plan) };
}

const cell = fc
  .tuple(fc.constantFrom('a', 'b', 'c', 'd', 'e'), fc.constantFrom('n', 'm', 't'))
  .map(([key, column]) => `data["${key}"].${column}`);
const stretch = fc.constantFrom('data.n', 'data.m', 'data.t');
const literal = fc.constantFrom('0', '1', '2.5', '0.1', '100', '"abc"', '"x"', '""', 'TRUE', 'FALSE', '"3"');
const wanted = fc.constantFrom(
  '"abc"',
  '">1"',
  '"<=0"',
  '"<>abc"',
  '"a*"',
  '0',
  '2.5',
  '"12"',
  'data["a"].t',
  'data["b"].n',
);
const formula: fc.Arbitrary<string> = fc.letrec<{ value: string }>((tie) => ({
  value: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    literal,
    cell,
    fc
      .tuple(
        tie('value'),
        fc.constantFrom('+', '-', '*', '/', '=', '<>', '<', '<=', '>', '>=', '&'),
        tie('value'),
      )
      .map(([left, operator, right]) => `(${left} ${operator} ${right})`),
    tie('value').map((inner) => `(-${inner})`),
    fc
      .tuple(fc.constantFrom('IF'), tie('value'), tie('value'), tie('value'))
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(fc.constantFrom('IFERROR', 'IFNA'), tie('value'), tie('value'))
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(
        fc.constantFrom('ROUND', 'ROUNDUP', 'ROUNDDOWN', 'TRUNC'),
        tie('value'),
        fc.constantFrom('0', '1', '2', '-1'),
      )
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(
        fc.constantFrom('CEILING', 'FLOOR', 'MROUND', 'MOD'),
        tie('value'),
        fc.constantFrom('0.05', '1', '0.1', '3'),
      )
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(
        fc.constantFrom(
          'ABS',
          'INT',
          'SQRT',
          'LN',
          'ISNUMBER',
          'ISTEXT',
          'NOT',
          'LEN',
          'LOWER',
          'UPPER',
          'COS',
          'SIN',
          'TAN',
          'EXP',
          'RADIANS',
        ),
        tie('value'),
      )
      .map(([name, only]) => `${name}(${only})`),
    fc
      .tuple(fc.constantFrom('SUM', 'MIN', 'MAX', 'COUNT', 'COUNTA', 'AVERAGE'), stretch)
      .map(([name, column]) => `${name}(${column})`),
    // Not over text: hyperformula counts numerals in text there, spreadsheet programs and the compiled path do not.
    fc.constantFrom('SUMPRODUCT(data.n)', 'SUMPRODUCT(data.n, data.m)'),
    fc
      .tuple(fc.constantFrom('SUM', 'MIN', 'MAX', 'COUNT'), stretch, tie('value'))
      .map(([name, column, other]) => `${name}(${column}, ${other})`),
    fc
      .tuple(fc.constantFrom('AND', 'OR'), tie('value'), tie('value'))
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(fc.constantFrom('COUNTIF'), stretch, wanted)
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(fc.constantFrom('SUMIF'), stretch, wanted, fc.constantFrom('data.n', 'data.m'))
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc
      .tuple(
        fc.constantFrom('SUMIFS', 'MAXIFS', 'MINIFS'),
        fc.constantFrom('data.n', 'data.m'),
        stretch,
        wanted,
      )
      .map(([name, ...args]) => `${name}(${args.join(', ')})`),
    fc.tuple(tie('value'), literal, tie('value'), tie('value')).map((args) => `SWITCH(${args.join(', ')})`),
  ),
})).value;

/** Products of a table again and again, each under a name of its own. */
function repeated(table: string, times: number): string {
  const [head = '', ...rows] = table.trim().split('\n');
  return [
    head,
    ...Array.from({ length: times }, (_, at) =>
      rows.map((row) => row.replace(/^([^,]+)/, at === 0 ? '$1' : `$1 ${at}`)),
    ).flat(),
  ].join('\n');
}

/** The methods of calculated values, free of their object. */
function bound(values: Values): Values {
  return {
    get: values.get.bind(values),
    number: values.number.bind(values),
    total: values.total.bind(values),
  };
}

describe('the compiled path', () => {
  it('carries every function of the sheet language', () => {
    expect([...compiledFunctions.keys()].sort()).toEqual([...sheetFunctions.keys()].sort());
  });

  it.each(demoBooks)('says what the reference engine says in every cell of the demo book %s', (name) => {
    const { plan } = pricedBook(demoBook(name));
    expect(disagreements(plan, calculate(plan), evaluate(plan)).map(told)).toEqual([]);
  });

  it('says the same where amounts are large, as in rupiah', () => {
    const files = demoBook('starter');
    files.set(
      'book.yaml',
      (files.get('book.yaml') ?? '')
        .replace(/^currency: USD/m, 'currency: IDR')
        .replace(/^wage_per_hour: .*/m, 'wage_per_hour: 400000'),
    );
    files.set('products.csv', repeated(files.get('products.csv') ?? '', 12));
    const { plan, values } = pricedBook(files);
    expect(checkedByReference(plan, values).problems).toEqual([]);
  });

  it('names a formula of the book that programs would read differently, and throws for a shipped one', () => {
    const files = demoBook('metric');
    files.set(
      'sheets/extra.yaml',
      'extends: costs\ncolumns:\n  - { id: odd, heading: Odd, kind: number, formula: \'"12:30" + 0\' }\n',
    );
    const { plan, values } = pricedBook(files);
    const problems = checkedByReference(plan, values).problems.map(({ code, where }) => [
      code,
      where.file,
      where.column,
    ]);
    expect(problems).toEqual([['programs-differ', 'sheets/extra.yaml', 'Odd']]);
    const plain = pricedBook(demoBook('starter'));
    const planted: Values = {
      ...bound(plain.values),
      get: (sheet, column, row) => (column === 'unit_cost' ? 1 : plain.values.get(sheet, column, row)),
    };
    expect(() => checkedByReference(plain.plan, planted)).toThrow('the two engines differ');
  });

  it('says what the reference engine says for any formula', () => {
    fc.assert(
      fc.property(fc.array(formula, { minLength: 20, maxLength: 60 }), (formulas) => {
        const { plan, compiled, reference } = bothWays(formulas);
        const wrong = formulas.flatMap((text, row) => {
          const [one, other] = [compiled.get('probe', 'f', row), reference.get('probe', 'f', row)];
          return agrees(one, other)
            ? []
            : [`${text}: ${JSON.stringify(one)} against ${JSON.stringify(other)}`];
        });
        expect(plan.sheets).toHaveLength(2);
        expect(wrong).toEqual([]);
      }),
      { numRuns: Number(process.env.SENNIT_RUNS ?? 40) },
    );
  });
});
