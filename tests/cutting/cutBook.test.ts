import { describe, expect, it } from 'vitest';
import type { CutReport } from '../../engine/cutting/cutReport.ts';
import { productNames, unknownProduct } from '../../engine/cutting/order.ts';
import { bandBook } from '../support/bandBook.ts';
import { solvedBatch } from '../support/batch.ts';
import { type BookText, demoBook, pricedBook, priceFiles } from '../support/books.ts';
import { setCells } from '../support/editBook.ts';

const mmPerFoot = 304.8;

function withTables(stock: string, packs: string): BookText {
  return new Map([...demoBook('starter'), ['stock.csv', stock], ['packs.csv', packs]]);
}

/** Plans lines such as `lead long,4`. */
async function cut(book: BookText, order: string, keepMm = 900, cutLossMm = 0): Promise<CutReport> {
  const lines = order.split('\n').map((line) => {
    const [product = '', quantity] = line.split(',');
    return { product, quantity: Number(quantity) };
  });
  return (await solvedBatch(book, lines, { keepMm, cutLossMm })).report;
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
    expect(unknownProduct('Wrist', plan, values).mend).toBe(
      'Its sizes: wrist small, wrist medium, wrist large.',
    );
    expect(unknownProduct('wrst small', plan, values).mend).toContain('wrist small');
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

  it('reads what to make like any table of the book, adds twins up, and names what the book does not have', async () => {
    const withMake = (text: string): BookText => new Map([...demoBook('starter'), ['make.csv', text]]);
    const { problems } = priceFiles(
      withMake('product,quantity\nwrist medum,3\nlead long,some\nfob long,10001\n'),
    );
    const told = problems.filter(({ where }) => where.file === 'make.csv');
    expect(told.map((each) => [each.code, each.where.row])).toEqual([
      ['not-a-number', 3],
      ['out-of-range', 4],
      ['reference-unknown', 2],
    ]);
    expect(told[2]?.mend).toContain('wrist medium');
    const { report } = await solvedBatch(
      withMake(
        'product,quantity,remark\nlead long,2,market\nfob short,0,\nLEAD LONG,1,order\nlead long,1,market\n',
      ),
    );
    expect(report.make).toEqual([{ product: 'lead long', quantity: 4, remark: 'market; order' }]);
  });

  it('takes cord for every cut, also where that makes a piece fit no more', async () => {
    // Two pieces of 98 in take 196 of 200 in; with a cut of 4 in between them they end with the stock just so.
    const book = bandBook(`${none}band,200 in,1,spool\n`);
    const found = async (lossIn: number) => {
      const report = await cut(book, 'fob short,2', 0, lossIn * 25.4);
      return report.cords.find(({ material }) => material === 'band');
    };
    const without = await found(0);
    expect([without?.wasteMm, without?.keptMm].map((mm) => Math.round((mm ?? 0) / 25.4))).toEqual([0, 4]);
    const exact = await found(4);
    expect(exact?.missing).toEqual([]);
    expect(exact?.wasteMm).toBeCloseTo(4 * 25.4, 6);
    expect(exact?.keptMm).toBe(0);
    const tooMuch = await found(4.1);
    expect(tooMuch?.missing).toEqual([{ cutMm: 98 * 25.4, pieces: 1 }]);
    expect(tooMuch?.buyCost).toBe(10.3);
  });

  it('never lets running short pass: cords and fittings are listed, and cost what their packs cost', async () => {
    const empty = await cut(withTables(none, noPacks), 'collar small,7');
    expect(empty.parts.map(({ material, missingPieces }) => [material, missingPieces])).toEqual([
      ['D ring', 7],
      ['side buckle', 7],
      ['swing tag', 7],
    ]);
    for (const each of [...empty.cords, ...empty.parts]) expect(each.buyCost).toBeGreaterThan(0);
    for (const cord of empty.cords)
      expect(cord.missing).toEqual(cord.cuts.map(({ cutMm, pieces }) => ({ cutMm, pieces })));
    const bought = empty.shopping.reduce((sum, { cost }) => sum + cost, 0);
    expect(empty.shoppingCost).toBeCloseTo(bought, 6);
    // One buckle fewer on hand than needed is one buckle missing.
    const almost = await cut(
      withTables(`${none}side buckle,3,2,box\nD ring,7,1,box\n`, noPacks),
      'collar small,7',
    );
    expect(almost.parts.map(({ missingPieces }) => missingPieces)).toEqual([0, 1, 7]);
  });

  it('values what comes back at the cost of what it was cut from', async () => {
    const priced = setCells(
      withTables(`${none}rust cord,100 ft,1,spool\ncoal cord,1000 ft,1,spool\n`, noPacks),
      'stock.csv',
      { material: 'rust cord' },
      { cost_set: '0.2' },
    );
    const rust = (await cut(priced, 'lead short,1')).cords.find(({ material }) => material === 'rust cord');
    expect(rust?.keptValue).toBeCloseTo(((rust?.keptMm ?? 0) / mmPerFoot) * 0.2, 9);
    expect(rust?.goneCost).toBeCloseTo((100 - (rust?.keptMm ?? 0) / mmPerFoot) * 0.2, 9);
    // Three packs of a hundred feet at 3.90 landed each, and not the 10.30 of the material's own.
    const packs = withTables(none, 'material,pack,price,from_packs,freight\nriver cord,100 ft,3.00,3,0.90\n');
    const river = (await cut(packs, 'fob stout,60')).cords.find(({ material }) => material === 'river cord');
    expect(river?.keptValue).toBeCloseTo(((river?.keptMm ?? 0) / mmPerFoot) * 0.039, 9);
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
