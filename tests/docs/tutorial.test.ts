import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoBook } from '../support/books.ts';
import { blocksOf } from './pages/blocks.ts';

const page = readFileSync(join(import.meta.dirname, '../../docs/tutorial.md'), 'utf8');
const tables = blocksOf(page).filter(({ language, file }) => language === 'csv' && file !== '');

/** A reader does not see which file a box is for, and adds its rows as they stand. */
describe('the rows that the tutorial has added', () => {
  it('are many', () => {
    expect(tables.length).toBeGreaterThan(8);
  });

  it.each(tables)(
    'of $file stand under the headings that the starter book has, in their order',
    ({ file, text }) => {
      const [there = ''] = (demoBook('starter').get(basename(file)) ?? '').split('\n');
      const [heads = '', ...rows] = text.trimEnd().split('\n');
      expect(`${there},`.startsWith(`${heads},`), `${heads}\n${there}`).toBe(true);
      for (const row of rows)
        expect(row.replace(/"[^"]*"/g, '').split(',').length).toBeLessThanOrEqual(there.split(',').length);
    },
  );

  it.each(tables)('of $file are announced by its name', ({ file, line }) => {
    const near = page
      .split('\n')
      .slice(Math.max(0, line - 13), line - 1)
      .join('\n');
    expect(near).toContain(`\`${basename(file)}\``);
  });
});
