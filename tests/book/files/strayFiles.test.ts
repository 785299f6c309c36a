import { expect, test } from 'vitest';
import { strayFiles } from '../../../engine/book/files/strayFiles.ts';

const tables = [{ table: 'parts', key: [], needed: false, fields: [] }];
const mendOf = (...names: string[]): (string | undefined)[] =>
  strayFiles(new Map(names.map((name) => [name, ''])), tables).map(({ mend }) => mend);

test('a file that nothing reads is named, with the table that it may be', () => {
  expect(mendOf('book.yaml', 'parts.csv', 'sheets/own.yaml')).toEqual([]);
  expect(mendOf('Parts.CSV')).toEqual(['Did you mean parts.csv?']);
  expect(mendOf('book.yml')).toEqual(['Did you mean book.yaml?']);
  expect(mendOf('parts.csv', 'orders.csv')).toEqual(['Nothing, if it is for you.']);
});

test('a folder that is called like a table is named too', () => {
  expect(mendOf('parts.csv/')).toEqual(['If it stands for the table, put a file parts.csv in its place.']);
  const [told] = strayFiles(new Map([['old.csv/', '']]), tables);
  expect(told?.message).toBe('This is a folder, and nothing in it is read.');
});
