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
