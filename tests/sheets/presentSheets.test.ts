import { describe, expect, it } from 'vitest';
import { solvedBatch } from '../support/batch.ts';
import { demoBook, pricedBook, priceFiles } from '../support/books.ts';

const batchSheets = ['make', 'cutting_plan', 'fittings', 'shopping_list'];

describe('sheets that are there only with a batch', () => {
  it('stay out of a plan without one, with their columns and list entries', () => {
    const { plan, values } = pricedBook(demoBook('starter'));
    expect(plan.sheets.filter(({ id }) => batchSheets.includes(id))).toEqual([]);
    expect(plan.sheets.find(({ id }) => id === 'start')?.columns.map(({ id }) => id)).not.toContain('batch');
    const checks = plan.sheets.find(({ id }) => id === 'checks')?.columns[0]?.inputs ?? [];
    expect(checks.some((name) => String(name).includes('batch'))).toBe(false);
    expect(values.get('start', 'sums', 0)).toBe('all well');
  });

  it('come with one, and every total foots', async () => {
    const { plan, values, problems } = (await solvedBatch(demoBook('starter'))).after;
    expect(plan.sheets.filter(({ id }) => batchSheets.includes(id)).map(({ id }) => id)).toEqual(batchSheets);
    expect(values.get('start', 'sums', 0)).toBe('all well');
    expect(values.get('start', 'batch', 0)).toBe('all well: everything of the batch can be cut');
    expect(problems).toEqual(priceFiles(demoBook('starter')).problems);
  });

  it('can be leaned on by a sheet of the book that says so', async () => {
    const sheet = (more: string): string =>
      `sheet: bags\ntitle: Bags\nanswers: How many bags.\nrows: { form: none }\n${more}columns:\n  - { id: bags, heading: Bags, kind: count, formula: SUM(make.quantity) }\n`;
    const book = (more: string) => new Map([...demoBook('starter'), ['sheets/bags.yaml', sheet(more)]]);
    expect(priceFiles(book('')).problems.map(({ code }) => code)).toContain('sheet-unknown');
    const { before, after } = await solvedBatch(book('only_with: make\n'));
    expect(before.plan.sheets.some(({ id }) => id === 'bags')).toBe(false);
    expect(after.values.get('bags', 'bags', 0)).toBe(65);
  });
});
