import { createContext, runInContext } from 'node:vm';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../../engine/calc/compiled/calculate.ts';
import { evaluate } from '../../../engine/calc/evaluate.ts';
import { type CellPlace, compileProgram } from '../../../engine/calc/program/compileProgram.ts';
import { runtime } from '../../../engine/calc/program/runtime.ts';
import type { Values } from '../../../engine/calc/values.ts';
import type { Plan, PlanColumn } from '../../../engine/sheets/plan.ts';
import { solvedBatch } from '../../support/batch.ts';
import { demoBook, demoBooks, pricedBook } from '../../support/books.ts';
import { cellsOf, isFigure, replaceInputs, sameFigure } from '../../support/replaceInputs.ts';

const runs = Number(process.env.SENNIT_RUNS ?? 12);

const isResult = (_sheet: string, column: PlanColumn): boolean => column.inputs === undefined;
const nameOf = ({ sheet, column, row }: CellPlace): string => `${sheet}.${column} row ${row + 1}`;

/** Figures as they come and as they should not: around the one in the book, zero, far off, below zero. */
const figureFor = (before: number): fc.Arbitrary<number> =>
  fc.oneof(
    { weight: 6, arbitrary: fc.double({ min: 0.5, max: 1.6, noNaN: true }).map((by) => (before || 1) * by) },
    { weight: 2, arbitrary: fc.integer({ min: 0, max: 12 }) },
    fc.constantFrom(0, 1, 0.5, -1, 1e6, 1e300, -1e300, 1e-12),
  );

/** Some cells of a book with figures for them: whole columns, and single ones. */
function changes(plan: Plan, values: Values): fc.Arbitrary<{ place: CellPlace; figure: number }[]> {
  const cells = cellsOf(plan, isFigure);
  const columns = [...new Set(cells.map((each) => `${each.sheet}.${each.column}`))];
  return fc
    .tuple(fc.subarray(columns, { minLength: 1, maxLength: 6 }), fc.subarray(cells, { maxLength: 20 }))
    .chain(([whole, single]) => {
      const chosen = cells.filter(
        (each) => whole.includes(`${each.sheet}.${each.column}`) || single.includes(each),
      );
      return fc.tuple(
        ...chosen.map((place) =>
          figureFor(values.number(place.sheet, place.column, place.row)).map((figure) => ({ place, figure })),
        ),
      );
    });
}

/** Results in which a program differs from another calculation of the plan with these figures. */
function differing(
  plan: Plan,
  values: Values,
  changed: { place: CellPlace; figure: number }[],
  by: typeof evaluate,
) {
  const varied = changed.map((each) => each.place);
  const figures = changed.map((each) => each.figure);
  const results = cellsOf(plan, isResult);
  const program = compileProgram(plan, values, varied, results);
  const out = new Float64Array(results.length);
  // Not the first run: what one leaves behind must not reach the next.
  program.run(
    figures.map((each) => each * 2 + 1),
    out,
  );
  program.run(figures, out);
  const wanted = by(replaceInputs(plan, varied, figures));
  return results.flatMap((place, at) => {
    const value = wanted.get(place.sheet, place.column, place.row);
    const figure = out[at] ?? Number.NaN;
    return sameFigure(figure, value) ? [] : [`${nameOf(place)}: ${figure} against ${JSON.stringify(value)}`];
  });
}

describe.each(demoBooks)('a program of the demo book %s', (name) => {
  const { plan, values } = pricedBook(demoBook(name));

  it('gives what calculating the whole book with those figures gives, failures too', () => {
    fc.assert(
      fc.property(changes(plan, values), (changed) => {
        expect(differing(plan, values, changed, calculate)).toEqual([]);
      }),
      { numRuns: runs, seed: 20260401 },
    );
    fc.assert(
      fc.property(changes(plan, values), (changed) => {
        expect(differing(plan, values, changed, calculate)).toEqual([]);
      }),
      { numRuns: runs },
    );
  });

  it('gives what the reference engine gives', () => {
    fc.assert(
      fc.property(changes(plan, values), (changed) => {
        expect(differing(plan, values, changed, evaluate)).toEqual([]);
      }),
      { numRuns: 2, seed: 7 },
    );
  });

  it('holds every column, whichever figures vary', () => {
    const figures = cellsOf(plan, isFigure);
    const results = cellsOf(plan, isResult);
    const at = (place: CellPlace): number => values.number(place.sheet, place.column, place.row);
    const names = [...new Set(figures.map((each) => `${each.sheet}.${each.column}`))];
    const groups = [
      figures,
      ...names.map((each) => figures.filter((cell) => `${cell.sheet}.${cell.column}` === each)),
    ];
    for (const varied of groups) {
      const program = compileProgram(plan, values, varied, results);
      const out = new Float64Array(results.length);
      program.run(varied.map(at), out);
      const wanted = calculate(replaceInputs(plan, varied, varied.map(at)));
      const wrong = results.filter(
        (place, j) => !sameFigure(out[j] ?? 0, wanted.get(place.sheet, place.column, place.row)),
      );
      expect(wrong.map(nameOf), varied.map(nameOf).slice(0, 3).join(', ')).toEqual([]);
    }
  });

  it('is a text that runs by itself, given the runtime', () => {
    const varied = cellsOf(plan, isFigure);
    const results = cellsOf(plan, (sheet) => sheet === 'prices').filter((_, at) => at % 7 === 0);
    const program = compileProgram(plan, values, varied, results);
    const figures = varied.map((place) => values.number(place.sheet, place.column, place.row) * 1.01);
    const [here, there] = [new Float64Array(results.length), new Float64Array(results.length)];
    program.run(figures, here);
    const made = runInContext(`(${program.source})`, createContext({}))(runtime);
    made.run(figures, there);
    expect([...there]).toEqual([...here]);
  });
});

describe('a program of a book with a batch', () => {
  it('looks up rows whose keys vary', async () => {
    const { after } = await solvedBatch(demoBook('metric'));
    const { plan, values } = after;
    const varied = cellsOf(plan, isFigure);
    const results = cellsOf(plan, isResult);
    const program = compileProgram(plan, values, varied, results);
    const out = new Float64Array(results.length);
    for (const by of [1, 1.25]) {
      const figures = varied.map(({ sheet, column, row }) => values.number(sheet, column, row) * by);
      program.run(figures, out);
      const wanted = calculate(replaceInputs(plan, varied, figures));
      const wrong = results.filter(
        (place, j) => !sameFigure(out[j] ?? 0, wanted.get(place.sheet, place.column, place.row)),
      );
      expect(wrong.map(nameOf)).toEqual([]);
    }
  });
});

describe('what a program holds', () => {
  const { plan, values } = pricedBook(demoBook('starter'));
  const wage = { sheet: 'rates', column: 'wage_per_hour', row: 0 };

  it('is only what depends on the varied cells and is needed', () => {
    const labour = { sheet: 'rates', column: 'labour_per_hour', row: 0 };
    expect(compileProgram(plan, values, [wage], [labour]).cellCount).toBe(1);
    const cord = { sheet: 'cuts', column: 'cut_length', row: 0 };
    expect(compileProgram(plan, values, [wage], [cord, wage]).cellCount).toBe(0);
    const out = new Float64Array(2);
    compileProgram(plan, values, [wage], [cord, wage]).run([31], out);
    expect([...out]).toEqual([values.number('cuts', 'cut_length', 0), 31]);
  });

  it('names nothing of the maker’s', () => {
    const money = cellsOf(plan, (sheet, column) => isFigure(sheet, column) && column.kind === 'money');
    const { source } = compileProgram(
      plan,
      values,
      money,
      cellsOf(plan, () => true),
    );
    for (const sheet of plan.sheets) {
      for (const text of sheet.columns.flatMap((column) => column.inputs ?? [])) {
        if (typeof text === 'string' && text.includes(' ')) expect(source).not.toContain(text);
      }
    }
  });

  it('keeps a text that is compared in a run a text', () => {
    const files = demoBook('starter');
    files.set(
      'sheets/odd.yaml',
      `extends: costs\ncolumns:\n  - { id: said, heading: Said, kind: text, formula: ${JSON.stringify(
        `IF(minutes > 3, ${JSON.stringify('</script>`; throw 1; //')}, name)`,
      )} }\n  - { id: name, heading: Name, kind: text, formula: 'products[product].name & ""' }\n  - { id: long, heading: Long, kind: count, formula: LEN(said) }\n`,
    );
    const priced = pricedBook(files);
    const minutes = cellsOf(priced.plan, (sheet, column) => sheet === 'work' && isFigure(sheet, column));
    const results = cellsOf(priced.plan, (sheet, column) => sheet === 'costs' && column.id === 'long');
    const program = compileProgram(priced.plan, priced.values, minutes, results);
    expect(program.source).not.toContain('</script>');
    const out = new Float64Array(results.length);
    for (const by of [0, 1, 100]) {
      const figures = minutes.map(({ sheet, column, row }) => priced.values.number(sheet, column, row) * by);
      program.run(figures, out);
      const wanted = calculate(replaceInputs(priced.plan, minutes, figures));
      expect([...out]).toEqual(results.map(({ row }) => wanted.get('costs', 'long', row)));
    }
  });

  it.each([
    [{ sheet: 'products', column: 'product', row: 0 }, 'its column is key'],
    [{ sheet: 'products', column: 'over_cord', row: 0 }, 'it holds ref'],
    [{ sheet: 'costs', column: 'minutes', row: 0 }, 'its column is computed'],
    [{ sheet: 'rates', column: 'wage_per_hour', row: 1 }, 'No row 2'],
    [{ sheet: 'rates', column: 'wages', row: 0 }, 'No column rates.wages'],
  ])('cannot vary %j', (place, message) => {
    expect(() => compileProgram(plan, values, [place], [wage])).toThrow(message);
  });

  it('cannot vary a cell twice', () => {
    expect(() => compileProgram(plan, values, [wage, wage], [wage])).toThrow(
      'rates.wage_per_hour, row 1 is varied twice',
    );
  });
});
