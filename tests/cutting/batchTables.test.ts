import { describe, expect, it } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { type SolvedBatch, solvedBatch } from '../support/batch.ts';
import { type BookText, demoBook, demoBooks } from '../support/books.ts';
import { setFigure } from '../support/editBook.ts';

function withTables(stock: string, packs = 'material,pack,price,from_packs\n'): BookText {
  return new Map([...demoBook('starter'), ['stock.csv', stock], ['packs.csv', packs]]);
}

/** Rows of a sheet of the batch, as texts by column. */
function rowsOf({ after }: SolvedBatch, sheet: string, columns: readonly string[]): string[] {
  const count = after.plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
  return Array.from({ length: count }, (_, row) =>
    columns.map((column) => after.values.get(sheet, column, row)).join(' | '),
  );
}

function total({ after }: SolvedBatch, sheet: string, column: string): number {
  return Number(after.values.total(sheet, column));
}

describe('a batch on its sheets', () => {
  it.each(demoBooks)('says what the plan says, in the book %s', async (name) => {
    const batch = await solvedBatch(demoBook(name));
    const { report } = batch;
    const perCord = name === 'starter' ? 304.8 : 1000;
    const sum = (of: (cord: (typeof report.cords)[number]) => number): number =>
      report.cords.reduce((all, cord) => all + of(cord), 0);
    expect(total(batch, 'cutting_plan', 'opened_length')).toBeCloseTo(
      sum((cord) => cord.openedMm) / perCord,
      6,
    );
    expect(total(batch, 'cutting_plan', 'back')).toBeCloseTo(sum((cord) => cord.keptMm) / perCord, 6);
    expect(total(batch, 'cutting_plan', 'waste')).toBeCloseTo(sum((cord) => cord.wasteMm) / perCord, 6);
    expect(total(batch, 'cutting_plan', 'cost')).toBeCloseTo(
      sum((cord) => cord.goneCost),
      6,
    );
    expect(total(batch, 'cutting_plan', 'back_value')).toBeCloseTo(
      sum((cord) => cord.keptValue),
      6,
    );
    expect(total(batch, 'shopping_list', 'cost')).toBeCloseTo(report.shoppingCost, 6);
    expect(total(batch, 'make', 'cords')).toBeGreaterThan(100);
    expect(batch.after.values.get('start', 'sums', 0)).toBe('all well');
  });

  it('shares pieces of one length out to the products that they are for, so that each row can be followed', async () => {
    // Over and under of the stout fob are cut to one length: 24 in, five in each pack of ten feet.
    const book = withTables(
      'material,length,count,kind\nriver cord,500 ft,1,spool\nochre cord,500 ft,1,spool\n',
    );
    const short = new Map([
      ...book,
      ['packs.csv', 'material,pack,price,from_packs\ncoal cord,10 ft,0.01,\n'],
    ]);
    const batch = await solvedBatch(short, [{ product: 'fob stout', quantity: 4 }]);
    const rows = rowsOf(batch, 'cutting_plan', ['material', 'role', 'units', 'in_each', 'pieces']);
    const pieces = (role: string): number =>
      rows
        .filter((row) => row.startsWith(`coal cord | ${role} |`))
        .reduce((sum, row) => sum + Number(row.split(' | ').at(-1)), 0);
    expect([pieces('over'), pieces('under'), pieces('core')]).toEqual([4, 4, 4]);
    expect(batch.after.values.get('start', 'sums', 0)).toBe('all well');
  });

  it('lists what cannot be cut, says so on Start, and still foots', async () => {
    const demo = withTables('material,length,count,kind\n');
    const book = new Map([
      ...demo,
      ['materials.csv', (demo.get('materials.csv') ?? '').replace(/^(rust cord,.*?)"1,000 ft"/m, '$15 ft')],
    ]);
    const batch = await solvedBatch(book, [{ product: 'lead long', quantity: 3 }]);
    expect(batch.report.complete).toBe(false);
    const rows = rowsOf(batch, 'cutting_plan', ['material', 'kind', 'pieces', 'left_goes', 'cut_check']);
    expect(rows).toContain('rust cord | none | 6 | not cut | look');
    expect(batch.after.values.get('start', 'sums', 0)).toBe('all well');
    expect(batch.after.values.get('start', 'batch', 0)).toMatch(/^look: 6 cords of the batch cannot be cut/);
    const told = batch.after.problems.filter(({ where }) => where.file === 'the sheet Cutting plan');
    expect(told.map(({ severity, where }) => [severity, where.row])).toEqual([['watch', 3]]);
  });

  it('counts what is lost at the cuts', async () => {
    const book = setFigure(demoBook('starter'), 'cut_loss', '1 in');
    const lossless = await solvedBatch(demoBook('starter'));
    const batch = await solvedBatch(book);
    expect(batch.report.cutLossMm).toBeCloseTo(25.4, 9);
    expect(batch.after.values.get('start', 'sums', 0)).toBe('all well');
    const cuts = total(batch, 'cutting_plan', 'pieces');
    expect(total(batch, 'cutting_plan', 'waste') - total(lossless, 'cutting_plan', 'waste')).toBeCloseTo(
      cuts / 12,
      6,
    );
  });

  it('holds for products and materials whose names are numbers, patterns and formulas to other programs', async () => {
    const names = [
      ['lead long', '12'],
      ['fob long', '>5 fobs'],
      ['fob stout', '=lead'],
      ['rust cord', '<3 rust'],
      ['coal cord', '007'],
    ] as const;
    const renamed = new Map(
      [...demoBook('starter')].map(([file, text]) => [
        file,
        file.endsWith('.csv')
          ? names.reduce(
              (all, [from, to]) => all.replaceAll(new RegExp(`(^|,)${from}(?=,|$)`, 'gm'), `$1${to}`),
              text,
            )
          : text,
      ]),
    );
    const batch = await solvedBatch(renamed);
    expect(batch.report.make.map(({ product }) => product)).toEqual(
      expect.arrayContaining(['12', '>5 fobs', '=lead']),
    );
    expect(batch.after.values.get('start', 'sums', 0)).toBe('all well');
    expect(disagreements(batch.after.plan, evaluate(batch.after.plan), batch.after.values)).toEqual([]);
  });

  it('is there for a batch of fittings only, and where all is on hand', async () => {
    const demo = demoBook('starter');
    const book = new Map([
      ...demo,
      [
        'stock.csv',
        `${demo.get('stock.csv')?.trimEnd()}\nswing tag,9999,1,spool\nrust cord,9999,1,spool\ncoal cord,9999,1,spool\nlead hook,99,1,box\nlead box,99,1,box\n`,
      ],
    ]);
    const batch = await solvedBatch(book, [{ product: 'lead long', quantity: 2 }]);
    expect(batch.report.shopping).toEqual([]);
    expect(rowsOf(batch, 'shopping_list', ['line'])).toEqual([]);
    expect(batch.after.values.get('start', 'sums', 0)).toBe('all well');
    expect(disagreements(batch.after.plan, evaluate(batch.after.plan), batch.after.values)).toEqual([]);
  });
});
