import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { postings } from '../../engine/month/postings.ts';
import { demoBook, shipped } from '../support/books.ts';
import { monthOf } from '../support/monthSource.ts';

describe('postings', () => {
  it('are the same in the sheet, the shipped table and the page', () => {
    const sheet = shipped.sheets.find((file) => file.sheet?.sheet === 'accounts')?.sheet;
    expect(sheet?.columns.find(({ id }) => id === 'posting')?.choices).toEqual(postings);
    const rows = (shipped.tables.get('postings.csv') ?? '').trim().split('\n').slice(1);
    expect(rows.map((row) => row.split(',')[0])).toEqual(postings);
    const page = readFileSync('docs/month.md', 'utf8');
    for (const posting of postings) expect(page).toContain(`| \`${posting}\` |`);
  });

  const withAccounts = (text: string): Map<string, string> =>
    new Map([...demoBook('starter'), ['accounts.csv', text]]);
  const codeOf = (book: Map<string, string>, posting: string, text: string): string | undefined =>
    monthOf(book, '2026-10').journal.find((line) => line.posting === posting && line.text.includes(text))
      ?.code;

  it('take the code of the channel, else that of all channels, as text', () => {
    const book = withAccounts('posting,channel,account,name\nsales,,0400,\nsales,online,0402,Shop\n');
    expect(codeOf(book, 'sales', 'online')).toBe('0402');
    expect(codeOf(book, 'sales', 'stall')).toBe('0400');
  });

  it('without a code are called by their own name, and told', () => {
    const book = withAccounts('posting,account\nsales,400\n');
    expect(codeOf(book, 'materials', 'Pieces made')).toBe('materials');
    const told = monthOf(book, '2026-10').problems;
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({
      code: 'cell-missing',
      severity: 'watch',
      where: { file: 'accounts.csv' },
    });
    expect(told[0]?.message).toContain('materials');
    expect(told[0]?.message).not.toMatch(/(: |, )sales[,.]/);
  });

  it('stand as words on every sheet, and no file or column of the book is named there', () => {
    const { plan, values } = monthOf(withAccounts('posting,account\nsales,400\n'), '2026-10');
    const machine: string[] = [];
    for (const sheet of plan.sheets)
      for (const column of sheet.columns) {
        if (/_|\.csv/.test(column.heading)) machine.push(`${sheet.title}, ${column.heading}`);
        for (let row = 0; row < sheet.rowCount; row += 1) {
          const value = String(values.get(sheet.id, column.id, row) ?? '');
          if (/_|\.csv/.test(value)) machine.push(`${sheet.title}, ${column.heading}: ${value}`);
        }
      }
    expect(machine).toEqual([]);
  });

  it('have entries of numbers that no other month has, nor a spreadsheet program takes for days', () => {
    const numbers = ['2026-10', '2026-11'].map((id) => {
      const { journal } = monthOf(demoBook('starter'), id);
      return new Set(journal.map(({ entry }) => entry));
    });
    expect([...(numbers[0] ?? [])].slice(0, 2)).toEqual(['J-2026-10-001', 'J-2026-10-002']);
    for (const entry of numbers[1] ?? []) expect(numbers[0]?.has(entry)).toBe(false);
  });

  it.each([
    ['posting,channel,account\nmaterials,online,1310\n', 'cell-clash', 2],
    ['posting,channel,account\nsales,Online,1\nsales,online,2\n', 'key-twice', 3],
  ])('that contradict are told with their row', (text, code, row) => {
    const { problems } = monthOf(withAccounts(text), '2026-10');
    expect(problems.find((each) => each.code === code)?.where).toMatchObject({ file: 'accounts.csv', row });
  });
});
