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
