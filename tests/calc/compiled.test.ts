import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agrees, checkedByReference, type Disagreement, disagreements } from '../../engine/calc/agreement.ts';
import { calculate } from '../../engine/calc/compiled/calculate.ts';
import { compiledFunctions } from '../../engine/calc/compiled/functions.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import type { Values } from '../../engine/calc/values.ts';
import { sheetFunctions } from '../../engine/sheets/functions.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { formula, formulaPlan } from '../support/randomFormula.ts';

const told = ({ sheet, column, row, one, other }: Disagreement): string =>
  `${sheet.id}.${column.id} row ${row + 1}: ${JSON.stringify(one)} against ${JSON.stringify(other)}`;

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

  // The order of texts, and a failing case of SWITCH, are known to spreadsheet programs and not to the reference engine.
  it.each(['"12:30" + 0', 'COUNTIF(materials.material, ">b")', 'IFERROR(SWITCH(1, 1 / 0, 2, 3), 4)'])(
    'names %s of a book, which programs would read differently',
    (formula) => {
      const files = demoBook('metric');
      files.set(
        'sheets/extra.yaml',
        `extends: costs\ncolumns:\n  - { id: odd, heading: Odd, kind: number, formula: '${formula}' }\n`,
      );
      const { plan, values } = pricedBook(files);
      const problems = checkedByReference(plan, values).problems.map(({ code, where }) => [
        code,
        where.file,
        where.column,
      ]);
      expect(problems).toEqual([['programs-differ', 'sheets/extra.yaml', 'Odd']]);
    },
  );

  it('throws where a shipped formula comes to two things', () => {
    const plain = pricedBook(demoBook('starter'));
    const planted: Values = {
      ...bound(plain.values),
      get: (sheet, column, row) => (column === 'unit_cost' ? 1 : plain.values.get(sheet, column, row)),
    };
    expect(() => checkedByReference(plain.plan, planted)).toThrow('the two engines differ');
  });

  // What no chance draws often: every kind of criterion, conditions and figures in words, and calls that come to nothing.
  it.each([
    'COUNTIF(data.n, ">=0.1")',
    'COUNTIF(data.n, "<2.5")',
    'COUNTIF(data.n, "<>0")',
    'COUNTIF(data.n, "=0")',
    'COUNTIF(data.t, "=abc")',
    'COUNTIF(data.t, "?bc")',
    'COUNTIF(data.t, "a?c")',
    'COUNTIF(data.t, "a.c")',
    'COUNTIF(data.t, "~*")',
    'COUNTIF(data.t, "*")',
    'COUNTIF(data.t, TRUE)',
    'COUNTIF(data.m, 1 / 0)',
    'COUNTIF(data.m, data["c"].t)',
    'COUNTIFS(data.n, ">0", data.m, ">0")',
    'COUNTIFS(data.n, ">0", data["a"].m, 1)',
    'SUMIF(data.n, ">0")',
    'SUMIF(data.n, ">0", data["a"].m)',
    'SUMIFS(data["a"].m, data.n, ">0")',
    'SUMIFS(data.n, data.t, 1 / 0)',
    'MAXIFS(data.n, data.t, "nobody")',
    'MINIFS(data.n, data.t, "a*")',
    'SUMPRODUCT(data.n, data["a"].m)',
    'SUM(data["c"].t, 2)',
    'SUM("x", 2)',
    'SWITCH("z", "a", 1, "b", 2)',
    'SWITCH(1 / 0, 1, 2, 3)',
    'SWITCH(data["b"].m, 0, "none", "some")',
    'IFNA(SWITCH("z", "a", 1), 7)',
    'IF("true", 1, 2)',
    'IF("FALSE", 1, 2)',
    'IF("well", 1, 2)',
    'NOT("true")',
    '"5%" * 2',
    '" 1.5e2 " + 1',
    'LEN(1 = 1)',
    'ABS(TRUE)',
    'COUNTIF(data.t, "a.*")',
    'COUNTIF(data.t, "<>")',
    'COUNTIF(data.t, "=")',
    'COUNTIF(data.t, "")',
    'COUNTIF(data.m, "<>")',
    'COUNTIF(data.m, "=")',
    'COUNTIF(data.t, ">")',
    'COUNTIF(data["c"].t, "<>")',
    'NOT(data["b"].m)',
    'IFERROR(1 / 0, data["b"].m) + 1',
    'SWITCH(0, data["b"].m, 5)',
    'SWITCH(1, 1, data["b"].m) + 1',
    'SUM(IF(1 = 1, data["b"].m, 0), 2)',
    'SUMIFS(data.n, data.n, ">0", data["a"].n, 0)',
    '"a" & 1 / 0',
    '1 / 0 & "a"',
  ])('says of %s what the reference engine says', (text) => {
    const plan = formulaPlan([text]);
    expect(calculate(plan).get('probe', 'f', 0)).toEqual(evaluate(plan).get('probe', 'f', 0));
  });

  it('says what the reference engine says for any formula', () => {
    fc.assert(
      fc.property(fc.array(formula, { minLength: 20, maxLength: 60 }), (formulas) => {
        const plan = formulaPlan(formulas);
        const [compiled, reference] = [calculate(plan), evaluate(plan)];
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

it('a plan that is too large for the reference engine keeps its own values, and says that nothing checked them', () => {
  const { plan, values } = pricedBook(demoBook('starter'));
  const once = checkedByReference(plan, values, 100);
  expect(once.values).toBe(values);
  expect(once.problems).toMatchObject([{ code: 'too-large', severity: 'watch', accepted: 'up to 100' }]);
  expect(once.problems[0]?.message).toMatch(
    /^The book has [\d,]+ cells to calculate a second time, more than 100\.$/,
  );
  expect(checkedByReference(plan, values).problems).toEqual([]);
});
