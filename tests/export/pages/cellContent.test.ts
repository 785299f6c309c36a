import { expect, test } from 'vitest';
import { formulaContent } from '../../../engine/export/pages/cellContent.ts';

test('a result of every kind is cached; a blank is not', () => {
  for (const result of [0, -1.5, '', 'x', true, false]) {
    expect(formulaContent('A1', result)).toEqual({ formula: 'A1', result });
  }
  expect(formulaContent('A1', null)).toEqual({ formula: 'A1' });
});

test('errors that the file format has no word for are wrong values to it', () => {
  expect(formulaContent('A1', { error: '#NUM!' })).toEqual({ formula: 'A1', result: { error: '#NUM!' } });
  expect(formulaContent('A1', { error: '#CYCLE!' })).toEqual({ formula: 'A1', result: { error: '#VALUE!' } });
});

test('text beyond the length of a cell is cut', () => {
  expect(formulaContent('A1', 'x'.repeat(40_000)).result).toHaveLength(32_767);
});
