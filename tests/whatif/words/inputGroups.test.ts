import { describe, expect, it } from 'vitest';
import { placeId } from '../../../engine/whatif/mover.ts';
import { findInputs, isFault } from '../../../engine/whatif/words/findInputs.ts';
import { inputGroups } from '../../../engine/whatif/words/inputGroups.ts';
import { demoBook, demoBooks, pricedBook } from '../../support/books.ts';
import { cellsOf, isFigure } from '../../support/replaceInputs.ts';

describe.each(demoBooks)('inputs of the book %s', (name) => {
  const { plan } = pricedBook(demoBook(name));
  const groups = inputGroups(plan);
  const uncounted = new Set(['samples', 'stock', 'ranges']);

  it('are called by names that find them again', () => {
    for (const { name: called, cells } of groups) {
      const found = findInputs(called, plan);
      if (isFault(found)) throw new Error(`${called}: ${found.message}`);
      const again = new Set(
        [...found.cells, ...found.along].flatMap(({ sheet, column, rows }) =>
          rows.map((row) => placeId({ sheet, column, row })),
        ),
      );
      expect(
        cells.every((place) => again.has(placeId(place))),
        called,
      ).toBe(true);
    }
  });

  it('are called as a maker would say it, not as the sheet language does', () => {
    const technical = groups
      .map(({ name: called }) => called)
      .filter((called) => /[[\]_]|\w\.\w/.test(called));
    expect(technical).toEqual([]);
  });

  it('are called by names of their own', () => {
    const names = groups.map(({ name: called }) => called.toLowerCase());
    expect(new Set(names).size).toBe(names.length);
  });

  it('are every figure that is not counted and not blank or nothing', () => {
    const grouped = new Set(groups.flatMap(({ cells }) => cells.map(placeId)));
    const figures = cellsOf(
      plan,
      (sheet, column) => isFigure(sheet, column) && column.kind !== 'count' && !uncounted.has(sheet),
    );
    const filled = figures.filter(({ sheet, column, row }) => {
      const inputs = plan.sheets
        .find(({ id }) => id === sheet)
        ?.columns.find(({ id }) => id === column)?.inputs;
      return typeof inputs?.[row] === 'number' && inputs[row] !== 0;
    });
    expect(filled.length).toBeGreaterThan(100);
    const cell = (sheet: string, column: string, row: number) =>
      plan.sheets.find(({ id }) => id === sheet)?.columns.find(({ id }) => id === column)?.inputs?.[row];
    const pieces = new Set(
      (plan.sheets.find(({ id }) => id === 'materials')?.places ?? []).flatMap((_, row) =>
        cell('materials', 'sold_by', row) === 'piece' ? [cell('materials', 'material', row)] : [],
      ),
    );
    const missing = filled.filter((place) => !grouped.has(placeId(place)));
    // A piece takes two rings or three, and a pack holds a hundred: nobody is unsure of that by a per cent.
    for (const { sheet, column, row } of missing) {
      expect(['parts.quantity', 'materials.pack']).toContain(`${sheet}.${column}`);
      expect(pieces).toContain(cell(sheet, 'material', row));
    }
  });

  it('stand together where makers speak of them together', () => {
    const named = (called: string): number => groups.find((each) => each.name === called)?.cells.length ?? 0;
    expect(named('wage')).toBe(1);
    expect(named('overhead')).toBeGreaterThan(2);
    expect(named('cord')).toBeGreaterThan(3);
    expect(named('minutes of bar')).toBeGreaterThan(2);
  });
});
