import { expect, test } from 'vitest';
import { planFormulas, planShapes } from '../../engine/origin/planShapes.ts';
import { demoBook, pricedBook } from '../support/books.ts';

// Rows that are spelled alike are looked at once; what each of them says by itself is the judge.
test.each(['starter', 'metric'])('the shapes of a column are those of all its rows: %s', (name) => {
  const { plan } = pricedBook(demoBook(name));
  const shapes = planShapes(plan);
  const formulaOf = planFormulas(plan);
  let most = 0;
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns) {
      if (column.total !== undefined) continue;
      const rows = Array.from({ length: sheet.rowCount }, (_, row) => formulaOf(sheet, column, row)?.shape);
      const found = new Set(rows.filter((shape) => shape !== undefined));
      expect([...shapes(sheet, column)], `${sheet.id}.${column.id}`).toEqual([...found].sort());
      most = Math.max(most, found.size);
    }
  }
  // Some columns do have rows that differ, or this would prove little.
  expect(most).toBeGreaterThan(1);
});
