import { expect, test } from 'vitest';
import type { Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../../engine/sheets/spell.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { ironCalcCells, sourcesOf } from '../support/ironCalcPlan.ts';
import { ironCalcValues } from '../support/ironcalc.ts';
import { type Difference, differences, planCells, readable } from '../support/planCells.ts';

/**
 * IronCalc 0.8.4 rounds the binary double, not the decimal that it stands for: ROUND(1.005, 2) is 1.00 to
 * it (everyFunction.test.ts). LibreOffice and the engine agree on those cells (equality.test.ts).
 */
const rounds = /\b(ROUND|ROUNDUP|ROUNDDOWN|CEILING|FLOOR|MROUND|INT|TRUNC)\(/;

/** Differing cells none of whose sources differ: where the differences start. */
function origins(found: readonly Difference[], plan: Plan): Difference[] {
  const differing = new Set(found.map(({ cell }) => `${cell.sheet.id}!${cell.address}`));
  const sources = sourcesOf(plan);
  return found.filter(({ cell }) => !sources(cell).some((source) => differing.has(source)));
}

test.each(demoBooks)('IronCalc agrees on the book %s but for its own rounding of ties', async (name) => {
  const { plan, values } = pricedBook(demoBook(name));
  const found = differences(plan, values, await ironCalcValues(ironCalcCells(plan)));
  const speller = new Speller(new PlanIndex(plan), workbookSpelling);
  const starts = origins(found, plan);
  const unexplained = starts.filter(
    ({ cell }) => cell.row === 'total' || !rounds.test(speller.formula(cell.sheet, cell.column, cell.row)),
  );
  expect(readable(unexplained)).toBe('');
  if (found.length > 0) {
    console.info(
      `IronCalc, ${name}: ${starts.length} of ${planCells(plan).length} cells rounded otherwise (its fault), ${found.length - starts.length} follow from them:\n${readable(starts)}`,
    );
  }
  expect(starts.length).toBeLessThan(0.01 * planCells(plan).length);
});
