import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../../engine/calc/compiled/calculate.ts';
import { type CellPlace, compileProgram } from '../../../engine/calc/program/compileProgram.ts';
import { totalRoundings } from '../../../engine/calc/program/runtime.ts';
import { roundingRules } from '../../../engine/calc/roundingRules.ts';
import type { Expression } from '../../../engine/sheets/expression.ts';
import { sheetFunctions } from '../../../engine/sheets/functions.ts';
import type { Plan, PlanColumn, PlanSheet } from '../../../engine/sheets/plan.ts';
import { demoBook, pricedBook } from '../../support/books.ts';
import { functionCases, functionSheet } from '../../support/functionSheet.ts';
import { formula, formulaPlan } from '../../support/randomFormula.ts';
import { cellsOf, isFigure, replaceInputs, sameFigure } from '../../support/replaceInputs.ts';

const column = (id: string, more: Partial<PlanColumn>): PlanColumn => ({
  ...{ id, heading: id, unit: '', note: '', role: 'input', kind: 'number', bounds: {}, bar: false },
  ...{ at: { file: 'figures.yaml' } },
  ...more,
});

/** The plan with every number that a formula of the sheet spells out as an input cell of its own. */
function withFigures(plan: Plan, id: string): Plan {
  const figures: number[] = [];
  const loosened = (tree: Expression): Expression => {
    switch (tree.kind) {
      case 'number': {
        const key = String(figures.push(tree.value));
        const keys: Expression[] = [{ kind: 'text', value: key }];
        return { kind: 'reference', to: { rows: 'keyed', sheet: 'figures', column: 'figure', keys } };
      }
      case 'negate':
        return { ...tree, of: loosened(tree.of) };
      case 'binary':
        return { ...tree, left: loosened(tree.left), right: loosened(tree.right) };
      case 'call':
        return { ...tree, args: tree.args.map(loosened) };
      default:
        return tree;
    }
  };
  const sheets = plan.sheets.map((sheet): PlanSheet => {
    if (sheet.id !== id) return sheet;
    const columns = sheet.columns.map((each) =>
      each.rowFormulas === undefined ? each : { ...each, rowFormulas: each.rowFormulas.map(loosened) },
    );
    return { ...sheet, columns };
  });
  const rows = figures.map((_, at) => String(at + 1));
  const added: PlanSheet = {
    ...{ id: 'figures', title: 'Figures', answers: '', layout: 'table', key: ['key'], base: 'figures' },
    ...{ rowCount: rows.length, places: [], fixed: [] },
    columns: [
      column('key', { role: 'key', kind: 'key', inputs: rows }),
      column('figure', { inputs: figures }),
    ],
  };
  return { ...plan, sheets: [added, ...sheets] };
}

const probes = (plan: Plan, sheet: string, id: string): CellPlace[] =>
  cellsOf(plan, (name, each) => name === sheet && each.id === id);

describe('functions in a program', () => {
  it('round nothing to nothing, where the code trusts them to', () => {
    const found = totalRoundings.map((name) =>
      [0, 2, -1].map((digits) => roundingRules[name]?.(Number.NaN, digits)),
    );
    expect(found).toEqual(totalRoundings.map(() => [Number.NaN, Number.NaN, Number.NaN]));
  });

  it('are all of the sheet language, and give what they give elsewhere', () => {
    expect(Object.keys(functionCases).sort()).toEqual([...sheetFunctions.keys()].sort());
    const files = demoBook('starter');
    files.set('sheets/functions.yaml', functionSheet());
    const plan = withFigures(pricedBook(files).plan, 'functions');
    const values = calculate(plan);
    const varied = cellsOf(
      plan,
      (sheet, each) => (sheet === 'figures' || sheet === 'materials') && isFigure(sheet, each),
    );
    const results = probes(plan, 'functions', 'gives');
    const program = compileProgram(plan, values, varied, results);
    const out = new Float64Array(results.length);
    for (const change of [
      (x: number) => x,
      (x: number) => x * 1.5,
      (x: number) => -x,
      (x: number) => x + 1,
      () => 0,
    ]) {
      const figures = varied.map(({ sheet, column: id, row }) => change(values.number(sheet, id, row)));
      program.run(figures, out);
      const wanted = calculate(replaceInputs(plan, varied, figures));
      const wrong = results.flatMap((place, at) => {
        const value = wanted.get('functions', 'gives', place.row);
        const name = wanted.get('functions', 'what', place.row);
        return sameFigure(out[at] ?? 0, value)
          ? []
          : [`${name}: ${out[at]} against ${JSON.stringify(value)}`];
      });
      expect(wrong).toEqual([]);
    }
  });

  // What no chance draws often: look-ups by names that vary, texts and truth that come of figures, what fails for some.
  it.each([
    'data[IF(data["a"].n > 1, "b", "c")].m',
    'data[IF(data["a"].n > 1, "b", "nobody")].n',
    'IFERROR(data[IF(data["a"].n > 1, "b", "nobody")].n, 7)',
    'IFNA(data[IF(data["a"].n > 1, "b", "nobody")].n, data["d"].n)',
    'IFERROR(data[IF(1 / data["a"].n > 1, "b", "c")].n, 7)',
    'IFERROR(data["nobody"].n + data["a"].n, 7)',
    'SWITCH(data["a"].n, 1, 2)',
    'IFERROR(SWITCH(data["a"].n, 1, data["b"].n), 7)',
    'SWITCH(1, 1, data["a"].n, 2)',
    'SUM(data["c"].t, data["a"].n)',
    'SUM(data.n, IF(data["a"].n > 0, 1, "2"), data.m)',
    'COUNT(data.n, 2)',
    'COUNT(data["a"].t, data["a"].n)',
    'COUNTA(data.n, data.m)',
    'COUNTIF(data.n, data["a"].m)',
    'COUNTIF(data.n, ">" & data["a"].m)',
    'COUNTIF(data.n, 1 / 0)',
    'SUMIF(data.n, ">0")',
    'SUMIF(data.t, "a*", data.n)',
    'SUMIFS(data.n, data.t, 1 / 0)',
    'SUMIFS(data.n, data.t, "a*", data.m, ">0")',
    'SUMIFS(data["a"].n, data.t, "a*")',
    'SUMPRODUCT(data.n, data["a"].m)',
    'SUMPRODUCT(data["a"].n, data["b"].m)',
    'AVERAGE(data.n)',
    'AVERAGE(data["a"].n, 3)',
    'MAX(data["a"].n, 1 / 0)',
    'AND(ISNUMBER(data["a"].n), ISNUMBER(data["b"].n))',
    'OR(ISTEXT(IF(data["a"].n > 1, "x", 1)), ISNUMBER(data["b"].n))',
    'AND(data["a"].n > 1, 1 / data["b"].n > 0)',
    'AND(data["a"].n > 1, 1 > 2)',
    'OR(data["a"].n > 1, 1 / 0)',
    'IF(data["a"].n > 1, "x", "y") = "X"',
    'IF(1 / data["a"].n > 1, "x", "y") <> "x"',
    'IF(data["a"].n > 1, "x", "y") = "z"',
    'IF(data["a"].n > 1, data["c"].t, "y") = ""',
    'data["a"].n > "x"',
    'data["a"].n = TRUE',
    'IF(data["a"].n > 1, "2.5", "x") + 1',
    'IF(IF(data["a"].n > 1, "true", "x"), 1, 2)',
    'IF(data["a"].n > 1, 1, "x") * 2',
    'LEN(data["a"].n & "!")',
    'LEN(UPPER(IF(data["a"].n > 1, "one", "three")))',
    'data["a"].n ^ data["b"].n',
    '1 / (data["a"].n * -0)',
    'NOT(data["a"].n)',
    'ISNUMBER(IF(data["a"].n > 1, data["b"].n, "x"))',
  ])('give of %s what the compiled path gives', (text) => {
    const plan = formulaPlan([text]);
    const varied = cellsOf(plan, isFigure);
    const place = { sheet: 'probe', column: 'f', row: 0 };
    const program = compileProgram(plan, calculate(plan), varied, [place]);
    const out = new Float64Array(1);
    for (const first of [2, 1, 0, 0.5, -3]) {
      const figures = varied.map((_, at) => (at === 0 ? first : [4, 0, -2, 1, 2.5][at % 5]!));
      program.run(figures, out);
      const value = calculate(replaceInputs(plan, varied, figures)).get('probe', 'f', 0);
      expect(sameFigure(out[0]!, value), `${first}: ${out[0]} against ${JSON.stringify(value)}`).toBe(true);
    }
  });

  it('give what the compiled path gives for any formula and any figures', () => {
    const figure = fc.oneof(
      fc.constantFrom(0, 1, -1, 2.5, 0.1, 100, 1e308, -1e308, 1e-300, 12, 3),
      fc.double({ min: -100, max: 100, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(formula, { minLength: 20, maxLength: 60 }),
        fc.array(figure, { minLength: 10, maxLength: 10 }),
        (formulas, figures) => {
          const plan = formulaPlan(formulas);
          const values = calculate(plan);
          const varied = cellsOf(plan, isFigure);
          const wanted = calculate(replaceInputs(plan, varied, figures));
          const wrong = formulas.flatMap((text, row) => {
            const place = { sheet: 'probe', column: 'f', row };
            const out = new Float64Array(1);
            try {
              compileProgram(plan, values, varied, [place]).run(figures, out);
            } catch (error) {
              if (/probe\.f, row \d+: .*IFNA/.test(String(error)) && text.includes('IFNA')) return [];
              throw error;
            }
            const value = wanted.get('probe', 'f', row);
            return sameFigure(out[0] ?? 0, value)
              ? []
              : [`${text}: ${out[0]} against ${JSON.stringify(value)}`];
          });
          expect(wrong).toEqual([]);
        },
      ),
      { numRuns: Number(process.env.SENNIT_RUNS ?? 40) },
    );
  });
});
