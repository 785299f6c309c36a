import { expect, test } from 'vitest';
import { weaveNames } from '../engine/weaveNames.ts';
import { shipped } from './support/books.ts';

test('the shipped weaves are listed by name, in the order of their table', () => {
  expect(weaveNames(shipped.tables).slice(0, 3)).toEqual(['bar', 'spiral bar', 'slip-loop bar']);
});

test('names are read as any table is: quoted, in any column', () => {
  const table = 'name;weave\r\nOne;"left; over ""right"""\r\n\r\nTwo;plain\r\n';
  expect(weaveNames(new Map([['weaves.csv', table]]))).toEqual(['left; over "right"', 'plain']);
  expect(weaveNames(new Map())).toEqual([]);
});
