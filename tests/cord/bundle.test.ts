import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parseCsv } from '../../engine/book/files/csvFile.ts';
import { wrap } from '../../engine/cord/wrap.ts';

/** Formulas that speak of a bundle of n cords: WRAP_CORD of its outline, families of its width. */
const { headings, rows } = parseCsv('families.csv', readFileSync('templates/families.csv', 'utf8'));
const formulaOf = (family: string, column: string): string =>
  rows.find(({ cells }) => cells[0] === family)?.cells[headings.findIndex(({ id }) => id === column)] ?? '';

it('the width of a bundle in families.csv is the outline of WRAP_CORD, before that is rounded up', () => {
  const width = /^SQRT\((\d+) \* core - (\d+)\) \/ (\d+) \+ 2$/.exec(formulaOf('wrap', 'width'));
  const [, times = 0, less = 0, over = 0] = (width ?? []).map(Number);
  for (let core = 1; core <= 40; core += 1) {
    // sqrt((hull + 2 pi)^2 + 1) of a wrap whose turns touch, turned round.
    const hull = Math.sqrt(wrap.compute(core, 1) ** 2 - 1) - 2 * Math.PI;
    const across = Math.sqrt(times * core - less) / over;
    expect(Math.ceil(over * across - 1e-9) - 3, `${core} cords`).toBeCloseTo(hull, 9);
  }
});

it('families.csv writes it alike wherever a core is a bundle', () => {
  const bundle = 'SQRT(12 * core - 3) / 3';
  expect(formulaOf('wrap', 'width')).toBe(`${bundle} + 2`);
  expect(formulaOf('wrap', 'thickness')).toBe(`${bundle} + 2`);
  for (const column of ['take_up', 'width', 'thickness'])
    expect(formulaOf('round braid', column)).toContain(`IF(core > 0, ${bundle}, `);
});
