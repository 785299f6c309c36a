import { describe, expect, it } from 'vitest';
import { assemble } from '../../engine/sheets/readDefinitions.ts';
import { shipped } from '../support/books.ts';
import { make, sheets } from './workshop.ts';

const codes = (more: Readonly<Record<string, string>>) =>
  make(more).problems.map(({ code, where }) => [code, where.file, where.line]);

describe('assemble', () => {
  it('reads the shipped sheets without a word, in workbook order', () => {
    const { definitions, problems } = assemble(shipped.sheets);
    expect(problems).toEqual([]);
    const places = definitions.map(({ place }) => place);
    expect(places).toEqual([...places].sort((one, other) => one - other));
  });

  it('does not depend on the order of the files', () => {
    const reversed = [...shipped.sheets].reverse();
    expect(assemble(reversed).definitions).toEqual(assemble(shipped.sheets).definitions);
  });

  it('remembers where each column was defined', () => {
    const { definitions } = make();
    expect(definitions.find(({ sheet }) => sheet === 'rates')?.columns[1]?.at).toEqual({
      file: 'rates.yaml',
      line: 8,
    });
  });

  it('adds the columns of an extension to the sheet that it names', () => {
    const { definitions, problems } = make({
      more: 'extends: goods\ncolumns:\n  - { id: twice, heading: Twice, kind: money, formula: main_price * 2 }\n',
    });
    expect(problems).toEqual([]);
    expect(definitions.find(({ sheet }) => sheet === 'goods')?.columns.at(-1)?.id).toBe('twice');
  });

  it.each([
    [
      'an extension of no sheet',
      'extends: good\ncolumns:\n  - { id: a, heading: A, formula: "1" }\n',
      'sheet-unknown',
      1,
    ],
    [
      'a column that there is',
      'extends: goods\ncolumns:\n  - { id: main, heading: A, formula: "1" }\n',
      'column-twice',
      3,
    ],
    [
      'a name with capitals',
      'extends: goods\ncolumns:\n  - { id: Main, heading: A, formula: "1" }\n',
      'sheet-shape',
      3,
    ],
    [
      'a word that there is not',
      'extends: goods\ncolumns:\n  - { id: a, heading: A, colour: red }\n',
      'sheet-shape',
      3,
    ],
    ['no columns', 'extends: goods\ncolumns: []\n', 'sheet-shape', 2],
    [
      'a list of a sheet that there is not',
      'extends: goods\ncolumns:\n  - { id: a, heading: A, kind: ref, of: cord }\n',
      'sheet-unknown',
      3,
    ],
    ['no YAML', 'extends: goods\n  columns: x\n', 'yaml-syntax', 1],
  ])('reports %s', (_, source, code, line) => {
    expect(codes({ more: source })).toEqual([[code, 'more.yaml', line]]);
  });

  it('reports a second sheet of the same name, and leaves the first', () => {
    const { problems, definitions } = make({
      zzz: (sheets.goods ?? '').replace('title: Goods', 'title: Others'),
    });
    expect(problems.map(({ code }) => code)).toEqual(['key-twice']);
    expect(definitions.find(({ sheet }) => sheet === 'goods')?.title).toBe('Goods');
  });

  it('reports keys that the sheet lacks or does not say', () => {
    const own = (key: string): string =>
      `sheet: own\ntitle: Own\nanswers: Own.\nrows: { each: goods }\n${key}columns:\n  - { id: good, heading: Good, kind: key }\n`;
    expect(codes({ own: own('') })).toEqual([['sheet-shape', 'own.yaml', 1]]);
    expect(codes({ own: own('key: goot\n') })).toEqual([['column-name-unknown', 'own.yaml', 1]]);
    expect(codes({ own: own('key: good\n') })).toEqual([]);
  });

  it('speaks of the file, never of the schema library', () => {
    for (const source of [
      '',
      'text',
      '[]',
      'sheet: 1',
      'extends: goods',
      'extends: goods\ncolumns: 3',
      'sheet: own\ntitle: [x]\nanswers: Own.\nrows: 3\ncolumns:\n  - 5',
    ]) {
      for (const { message, accepted } of make({ own: source }).problems) {
        expect(`${message} ${accepted}`).not.toMatch(/Object|undefined|null|strict|Array|\bnever\b|string/);
      }
    }
  });
});
