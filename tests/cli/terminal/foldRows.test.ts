import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldRows } from '../../../cli/terminal/foldRows.ts';
import { styleFor } from '../../../cli/terminal/style.ts';
import { type TableColumn, table, wrap } from '../../../cli/terminal/table.ts';

const columns: readonly TableColumn[] = [
  { heading: 'Input', align: 'left' },
  { heading: 'down', align: 'right' },
];
const style = styleFor({ out: () => {}, err: () => {}, env: {}, now: () => new Date(0), folder: '.' });

describe('rows that are too wide', () => {
  it('break their texts onto lines below, the rest of the row in the first', () => {
    const rows = [
      ['asking price of collar medium at wholesale', '1.00'],
      { group: 'of all' },
      ['wage', '2.00'],
    ];
    expect(foldRows(columns, rows, 30, 10)).toEqual([
      ['asking price of collar', '1.00'],
      ['  medium at wholesale', ''],
      { group: 'of all' },
      ['wage', '2.00'],
    ]);
  });

  it('stay as they are where they fit', () => {
    const rows = [['wage', '2.00']];
    expect(foldRows(columns, rows, 80, 10)).toEqual(rows);
  });

  it('lose no word and fit, whatever the words', () => {
    const word = fc.string({ unit: fc.constantFrom(...'abc'), minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(
        fc.array(fc.array(word, { minLength: 1, maxLength: 9 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 24, max: 60 }),
        (texts, width) => {
          const rows = texts.map((words) => [words.join(' '), '1.00']);
          const folded = foldRows(columns, rows, width, 16);
          const lines = folded.flatMap((row) => ('group' in row ? [] : [(row[0] ?? '').trim()]));
          expect(lines.join(' ')).toBe(texts.map((words) => words.join(' ')).join(' '));
          for (const line of table(columns, folded, width, style).split('\n'))
            expect(line.length).toBeLessThanOrEqual(width);
        },
      ),
    );
  });
});

it('a per cent keeps its sign when lines break', () => {
  expect(wrap('makes it 0 % there', 10)).toEqual(['makes it', '0 % there']);
});
