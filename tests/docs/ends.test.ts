import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { shipped } from '../support/books.ts';

const top = join(import.meta.dirname, '../..');
const kinds = new Map(
  Papa.parse<Record<string, string>>(shipped.tables.get('end_kinds.csv') ?? '', {
    header: true,
    skipEmptyLines: true,
  }).data.map((row) => [row.end ?? '', row]),
);

/** Rows of a table in a page, as their cells. */
function tableRows(page: string): string[][] {
  return readFileSync(join(top, page), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
}

describe('what the pages say of ends is what the sheets reckon with', () => {
  it.each([
    ['overhand stop knot', 'overhand knot'],
    ['figure-of-eight stop knot', 'figure-eight knot'],
    ['two-strand lanyard knot', 'diamond knot'],
    ['one crown', 'crown'],
    ['crown and wall (button)', 'crown and wall'],
    ['eye, its legs held by the work', 'joined eye'],
    ['eye, tied with an overhand loop knot', 'overhand loop'],
    ['eye splice of laid rope, three tucks', 'eye splice 3'],
    ['eye, braided cord buried in itself', 'buried eye'],
  ])('docs/cord/ends.md: %s', (words, end) => {
    const row = tableRows('docs/cord/ends.md').find(([first]) => first === words);
    const kind = kinds.get(end);
    // The page rounds.
    const places = row?.[1]?.split('.')[1]?.length ?? 0;
    expect(Number(kind?.cord_diameters).toFixed(places)).toBe(Number(row?.[1]).toFixed(places));
    expect(Number(kind?.per_size)).toBe(Number(row?.[2]));
  });

  it('docs/weights-and-ends.md shows every shipped end with its figures', () => {
    const shown = new Map(
      tableRows('docs/weights-and-ends.md').flatMap(([names = '', diameters = '', perSize = '']) => {
        const at = (text: string, index: number): number => {
          const figures = text.split(', ');
          return Number(figures[index] ?? figures[0]);
        };
        return [...names.matchAll(/`([^`]+)`/g)].map(([, name], index) => [
          name,
          [at(diameters, index), at(perSize, index)],
        ]);
      }),
    );
    for (const [end, { cord_diameters, per_size }] of kinds)
      expect(shown.get(end), end).toEqual([Number(cord_diameters), Number(per_size)]);
  });
});
