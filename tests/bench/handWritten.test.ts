import { expect, it } from 'vitest';
import { calculate } from '../../engine/calc/compiled/calculate.ts';
import { compileProgram } from '../../engine/calc/program/compileProgram.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { replaceInputs } from '../support/replaceInputs.ts';
import { riskDraws } from './draws.ts';
import { handWritten } from './handWritten.ts';

it.each(demoBooks)('the loops of the benchmark do what the program does, in the demo book %s', (name) => {
  const { plan, values } = pricedBook(demoBook(name));
  const draws = riskDraws(plan, values, 200);
  const program = compileProgram(plan, values, draws.varied, draws.results);
  const byHand = handWritten(plan, values, draws);
  const [ours, theirs] = [new Float64Array(draws.results.length), new Float64Array(draws.results.length)];
  for (const [at, figures] of draws.figures.entries()) {
    program.run(figures, ours);
    byHand(figures, theirs);
    const apart = ours.map((each, j) => Math.abs(each - (theirs[j] ?? Number.NaN)));
    expect(Math.max(...apart), `draw ${at}`).toBeLessThan(1e-9);
  }
  const last = draws.figures.at(-1) ?? [];
  const whole = calculate(replaceInputs(plan, draws.varied, last));
  expect(
    Math.max(
      ...draws.results.map(({ row }, j) => Math.abs(whole.number('prices', 'margin', row) - (ours[j] ?? 0))),
    ),
  ).toBeLessThan(1e-12);
  expect(new Set(ours).size).toBeGreaterThan(10);
});
