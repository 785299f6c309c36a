import { describe, expect, it } from 'vitest';
import { cutBook } from '../../engine/cutting/cutBook.ts';
import type { CutReport } from '../../engine/cutting/cutReport.ts';
import { productNames, readOrder } from '../../engine/cutting/order.ts';
import { type BookText, demoBook, pricedBook } from '../support/books.ts';
import { setCells } from '../support/editBook.ts';
import { solver } from './solverForTests.ts';

const mmPerFoot = 304.8;

function withTables(stock: string, packs: string): BookText {
  return new Map([...demoBook('starter'), ['stock.csv', stock], ['packs.csv', packs]]);
}

async function cut(book: BookText, order: string, keepMm = 900): Promise<CutReport> {
  const { plan, values } = pricedBook(book);
  const read = readOrder('plan.csv', `product,quantity\n${order}`, plan, values);
  expect(read.problems).toEqual([]);
  return cutBook(plan, values, read.order, solver, { keepMm });
}

const none = 'material,length,count,kind\n';
const noPacks = 'material,pack,price,from_packs\n';

describe('cutBook', () => {
  it('takes pieces and cut lengths from the sheet Cuts', async () => {
    const book = withTables(none, noPacks);
    const { plan, values } = pricedBook(book);
    const report = await cut(book, 'wrist medium,3\nWRIST MEDIUM,2');
    expect(report.make).toEqual([{ product: 'wrist medium', quantity: 5 }]);
    const sheet = plan.sheets.find((each) => each.id === 'cuts');
    const expected = new Map<string, number>();
    for (let row = 0; row < (sheet?.rowCount ?? 0); row += 1) {
      if (values.get('cuts', 'product', row) !== 'wrist medium') continue;
      const cord = String(values.get('cuts', 'cord', row));
      const mm = values.number('cuts', 'pieces', row) * values.number('cuts', 'cut_length', row) * 25.4 * 5;
      expected.set(cord, (expected.get(cord) ?? 0) + mm);
    }
    for (const cord of report.cords.filter((each) => expected.has(each.material)))
      expect(cord.cutMm).toBeCloseTo(expected.get(cord.material) ?? 0, 3);
    expect(report.cords.map((each) => each.material)).toEqual(expect.arrayContaining([...expected.keys()]));
  });

  it('knows only the pack of materials.csv where there are no further tables', async () => {
    const book = new Map([...demoBook('starter')].filter(([file]) => !/^(stock|packs)\.csv$/.test(file)));
    const report = await cut(book, 'lead long,40');
    const rust = report.shopping.find((each) => each.material === 'rust cord');
    expect(rust?.packMm).toBeCloseTo(1000 * mmPerFoot, 6);
    expect(rust?.costEach).toBe(66.5);
  });

  it('lists what stock on hand leaves missing, and what buying for it costs', async () => {
    const book = withTables(`${none}rust cord,20 ft,1,spool\ncoal cord,500 ft,1,spool\n`, noPacks);
    const report = await cut(book, 'lead long,4');
    const rust = report.cords.find((each) => each.material === 'rust cord');
    const pieceMm = rust?.cuts[0]?.cutMm ?? 0;
    const fromSpool = Math.floor((20 * mmPerFoot) / pieceMm);
    const needed = rust?.cuts[0]?.pieces ?? 0;
    expect(rust?.missing).toEqual([{ cutMm: pieceMm, pieces: needed - fromSpool }]);
    expect(rust?.buyCost).toBe(66.5);
    const coal = report.cords.find((each) => each.material === 'coal cord');
    expect([coal?.missing, coal?.buy, coal?.buyCost]).toEqual([[], [], 0]);
    expect(report.shopping.map((each) => each.material)).not.toContain('coal cord');
  });

  it('takes a price break, landed, where more packs cost less', async () => {
    // One hundred-foot pack of river cord costs 10.30 landed, but 3.90 each from three on.
    const book = withTables(none, `${noPacks}river cord,100 ft,3.00,3\n`);
    const withFreight = setCells(book, 'packs.csv', { material: 'river cord' }, { freight: '0.90' });
    const report = await cut(withFreight, 'fob stout,60');
    const river = report.shopping.filter((each) => each.material === 'river cord');
    expect(river).toEqual([expect.objectContaining({ packs: 3, costEach: 3.9, cost: 11.7 })]);
  });

  it('puts long offcuts back to stock with their value and calls short ones waste', async () => {
    const book = withTables(`${none}rust cord,100 ft,1,spool\ncoal cord,1000 ft,1,spool\n`, noPacks);
    const kept = (await cut(book, 'lead short,1', 600)).cords.find((each) => each.material === 'rust cord');
    const leftMm = 100 * mmPerFoot - (kept?.cutMm ?? 0);
    expect(kept?.keptMm).toBeCloseTo(leftMm, 3);
    // Landed: (61.00 + 5.50) for a thousand feet.
    expect(kept?.keptValue).toBeCloseTo((leftMm / mmPerFoot) * 0.0665, 6);
    expect(kept?.wasteMm).toBe(0);
    const wasted = (await cut(book, 'lead short,1', 40_000)).cords.find(
      (each) => each.material === 'rust cord',
    );
    expect([wasted?.keptMm, wasted?.keptValue]).toEqual([0, 0]);
    expect(wasted?.wasteMm).toBeCloseTo(leftMm, 3);
    expect(wasted?.wasteRatio).toBeCloseTo(leftMm / (100 * mmPerFoot), 9);
  });

  it('names pieces that are longer than any stock or pack, and costs them', async () => {
    const book = setCells(
      withTables(none, noPacks),
      'materials.csv',
      { material: 'rust cord' },
      { pack: '5 ft' },
    );
    const report = await cut(book, 'lead long,2');
    const rust = report.cords.find((each) => each.material === 'rust cord');
    expect(report.complete).toBe(false);
    expect(rust?.uncut).toEqual(rust?.cuts.map(({ cutMm, pieces }) => ({ cutMm, pieces })));
    expect(rust?.uncutCost).toBeGreaterThan(0);
    expect(rust?.buy).toEqual([]);
  });

  it('buys fittings in whole packs beyond what is on hand, and cuts webbing', async () => {
    const book = withTables(`${none}split ring,35,1,box\n`, `${noPacks}split ring,20,1.00,\n`);
    const report = await cut(book, 'fob short,50\ncollar small,2\nsling bar,2');
    const rings = report.parts.find((each) => each.material === 'split ring');
    expect([rings?.pieces, rings?.onHandPieces, rings?.missingPieces]).toEqual([50, 35, 15]);
    expect(rings?.buy).toEqual([expect.objectContaining({ packPieces: 20, packs: 1 })]);
    const webbing = report.cords.find((each) => each.material === 'webbing');
    expect(webbing?.cuts[0]?.for[0]?.role).toBe('part');
  });

  it('asks for the size where a product comes in sizes', () => {
    const { plan, values } = pricedBook(demoBook('starter'));
    const { order, problems } = readOrder(
      'plan.csv',
      'product,quantity\nWrist,3\nWrist Small,2\n',
      plan,
      values,
    );
    expect(order).toEqual([{ product: 'wrist small', quantity: 2 }]);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code: 'reference-unknown', where: { row: 2 } });
    expect(problems[0]?.mend).toBe('Its sizes: wrist small, wrist medium, wrist large.');
  });

  it('never overruns a stock, and cuts every piece, in the whole line at once', async () => {
    const { plan, values } = pricedBook(demoBook('starter'));
    const names = [...productNames(plan, values).values()];
    const report = await cut(demoBook('starter'), names.map((name) => `${name},12`).join('\n'));
    expect(report.complete).toBe(true);
    for (const cord of report.cords) {
      const got = new Map<number, number>();
      for (const stock of cord.stock) {
        const takenMm = stock.cuts.reduce((sum, each) => sum + each.cutMm * each.pieces, 0);
        expect(takenMm).toBeLessThanOrEqual(stock.stockMm + 1e-6);
        expect(takenMm + stock.leftMm).toBeCloseTo(stock.stockMm, 3);
        for (const each of stock.cuts)
          got.set(each.cutMm, (got.get(each.cutMm) ?? 0) + each.pieces * stock.times);
      }
      for (const each of cord.cuts) expect(got.get(each.cutMm)).toBe(each.pieces);
      expect(cord.openedMm).toBeCloseTo(cord.cutMm + cord.keptMm + cord.wasteMm, 3);
    }
    const total = report.shopping.reduce((sum, each) => sum + each.cost, 0);
    expect(report.shoppingCost).toBeCloseTo(total, 6);
  });

  it('reads a plan of what to make like any table, and names what the book does not have', () => {
    const { plan, values } = pricedBook(demoBook('starter'));
    const { problems } = readOrder(
      'plan.csv',
      'product,quantity\nwrist medum,3\nlead long,some\n',
      plan,
      values,
    );
    expect(problems.map((each) => [each.code, each.where.row])).toEqual([
      ['not-a-number', 3],
      ['reference-unknown', 2],
    ]);
    expect(problems[1]?.mend).toContain('wrist medium');
    expect(readOrder('plan.csv', 'product;quantity\nlead long;0\n', plan, values).order).toEqual([]);
  });

  it('buys fittings whose packs hold parts of a piece', async () => {
    const demo = demoBook('starter');
    const book = new Map([
      ...demo,
      ['materials.csv', `${demo.get('materials.csv')?.trimEnd()}\nglue,Glue,piece,,,2.5,5.00,,,,\n`],
      ['packs.csv', `${noPacks}glue,1.2,9,\n`],
      ['parts.csv', `${demo.get('parts.csv')?.trimEnd()}\nfob short,glue,0.5\n`],
    ]);
    const report = await cut(book, 'fob short,21');
    const glue = report.parts.find((each) => each.material === 'glue');
    expect(glue?.missingPieces).toBe(11);
    expect(glue?.buy.map(({ packPieces, packs }) => [packPieces, packs])).toEqual([[2.5, 5]]);
  });
});
