import fc from 'fast-check';
import type { Book } from '../../engine/book/book.ts';
import { compile } from '../../engine/sheets/compile.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { readDefinitions } from '../../engine/sheets/readDefinitions.ts';
import { imperial } from './settings.ts';

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

/** A plan of formulas (`probe.f`), each in a row of its own, beside a small table (`data`) of numbers, text and blanks. */
export function formulaPlan(formulas: readonly string[]): Plan {
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
  const [first] = [...problems, ...more];
  if (first !== undefined) throw new Error(first.message);
  return plan;
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
/** Any formula over that table. */
export const formula: fc.Arbitrary<string> = fc.letrec<{ value: string }>((tie) => ({
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
