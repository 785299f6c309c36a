import { expect, test } from 'vitest';
import { gatherAlike } from '../../../engine/book/problems/gatherAlike.ts';
import { problem } from '../../../engine/book/problems/problem.ts';

const faults = (many: number, found: string) =>
  Array.from({ length: many }, (_, at) =>
    problem('not-a-number', { file: 'work.csv', row: at + 2, column: 'minutes' }, `“${found}” is wrong.`, {
      found,
    }),
  );

test('a fault that fills a column is told five times and then counted', () => {
  const told = gatherAlike(faults(40, 'much'), 'point', { file: 'book.yaml' });
  expect(told).toHaveLength(6);
  expect(told[5]?.message).toBe(
    '35 more rows have the same fault: 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, ….',
  );
});

test('figures that all have the other decimal mark are one slip of the setting', () => {
  const told = gatherAlike(faults(40, '1,5'), 'point', { file: 'book.yaml' });
  expect(told.map(({ where }) => where)).toEqual([{ file: 'book.yaml', column: 'decimal' }]);
});

test('the time for many faults grows with their number, not with the square of it', () => {
  expect(gatherAlike(faults(100_000, 'much'), 'point', { file: 'book.yaml' })).toHaveLength(6);
  expect(gatherAlike(faults(100_000, '1,5'), 'point', { file: 'book.yaml' })).toHaveLength(1);
});
