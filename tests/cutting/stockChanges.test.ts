import { describe, expect, it } from 'vitest';
import type { CutReport } from '../../engine/cutting/cutReport.ts';
import { stockChanges } from '../../engine/cutting/stockChanges.ts';
import type { StockChange } from '../../engine/cutting/writtenStock.ts';
import { bandBook } from '../support/bandBook.ts';
import { solvedBatch } from '../support/batch.ts';
import { type BookText, demoBook, pricedBook } from '../support/books.ts';

interface Taken {
  readonly book: BookText;
  readonly text: string;
  readonly changes: readonly StockChange[];
  readonly report: CutReport;
}

/** Takes lines such as `lead long,4` off the stock; of them, if so asked, only what concerns these materials. */
async function take(book: BookText, order: string, only?: readonly string[]): Promise<Taken> {
  const lines = order.split('\n').map((line) => {
    const [product = '', quantity] = line.split(',');
    return { product, quantity: Number(quantity) };
  });
  const { before, report: whole } = await solvedBatch(book, lines, { keepMm: 300 });
  const concerns = ({ material }: { readonly material: string }): boolean =>
    only === undefined || only.includes(material);
  const report = { ...whole, cords: whole.cords.filter(concerns), parts: whole.parts.filter(concerns) };
  const taken = stockChanges(book.get('stock.csv'), before.plan, before.values, report);
  return { ...taken, report, book: new Map([...book, ['stock.csv', taken.text]]) };
}

/** What lies in the workshop, by material: length or pieces, and value. */
function onHand(book: BookText): Map<string, { amount: number; value: number }> {
  const { plan, values } = pricedBook(book);
  const found = new Map<string, { amount: number; value: number }>();
  const rows = plan.sheets.find(({ id }) => id === 'stock')?.rowCount ?? 0;
  for (let row = 0; row < rows; row += 1) {
    const material = String(values.get('stock', 'material', row));
    const before = found.get(material) ?? { amount: 0, value: 0 };
    found.set(material, {
      amount: before.amount + values.number('stock', 'length', row) * values.number('stock', 'count', row),
      value: before.value + values.number('stock', 'value', row),
    });
  }
  return found;
}

describe('stockChanges', () => {
  it('shortens, removes and adds rows, and touches nothing else', async () => {
    const stock = [
      'material,length,count,kind,shelf',
      'band,25 ft,1,spool,"top, left"',
      '',
      'tape,"1,000 ft",1,spool,',
      'band,8 ft 2 in,1,offcut,box',
      'moss cord,640 ft,1,spool,do not touch',
    ].join('\r\n');
    const { text, changes } = await take(bandBook(stock), 'fob short,4', ['band', 'tape', 'split ring']);
    // Four pieces of 98 in: three from the spool, of which six inches are waste, and one that is the offcut.
    expect(text).toBe(
      [
        'material,length,count,kind,shelf',
        '',
        'tape,967 ft 4 in,1,spool,',
        'moss cord,640 ft,1,spool,do not touch',
        'split ring,96,1,box,',
      ].join('\r\n'),
    );
    expect(changes.map(({ material, row, before, after }) => [material, row, before, after])).toEqual([
      ['band', 2, '1 x 25 ft spool', ''],
      ['band', 5, '1 x 8 ft 2 in offcut', ''],
      ['tape', 4, '1 x 1000 ft spool', '1 x 967 ft 4 in spool'],
      ['split ring', null, '', '1 x 96 pcs box'],
    ]);
  });

  it('leaves whole ones of a row where they are and adds what is left of a cut one; a cut hank is an offcut', async () => {
    const stock = 'material,length,count,kind\nband,100 ft,3,hank\ntape,100 ft,2,spool\n';
    const { text } = await take(bandBook(stock), 'fob short,4', ['band', 'tape']);
    expect(text.split('\n')).toEqual([
      'material,length,count,kind',
      'band,100 ft,2,hank',
      'tape,100 ft,1,spool',
      'band,67 ft 4 in,1,offcut',
      'tape,67 ft 4 in,1,spool',
      '',
    ]);
  });

  it('adds to a row that has the same length already, at the cost of both together', async () => {
    const rows = (stock: string, order: string): Promise<string[]> =>
      take(bandBook(`material,length,count,kind,cost_set\n${stock}`), order, ['band']).then(({ text }) =>
        text.trimEnd().split('\n').slice(1),
      );
    // A row that is kept at none takes it in.
    expect(await rows('band,51 ft,0,spool,0.1\nband,100 ft,1,spool,0.2\n', 'fob short,6')).toEqual([
      'band,51 ft,1,spool,0.2',
    ]);
    // Twelve pieces use up the long one but for two feet, and there are two of those at 0.1.
    expect(await rows('band,2 ft,2,spool,0.1\nband,100 ft,1,spool,0.2\n', 'fob short,12')).toEqual([
      'band,2 ft,3,spool,0.133333',
    ]);
    // A cut one beside a whole one, and then two rows that become one.
    expect(await rows('band,2 ft,2,spool,0.1\nband,100 ft,2,spool,0.1\n', 'fob short,12')).toEqual([
      'band,2 ft,3,spool,0.1',
      'band,100 ft,1,spool,0.1',
    ]);
  });

  it('puts what is left of bought packs in, whole ones too, at what was paid for them', async () => {
    // Three packs for 3.90 are cheaper than two for 10.30. Sixteen pieces of 98 in open two of them.
    const packs = 'material,pack,price,from_packs,freight\nband,100 ft,3.00,3,0.90\n';
    const { book, text, report } = await take(bandBook('', packs), 'fob short,16', ['band']);
    expect(report.shopping.find(({ material }) => material === 'band')?.packs).toBe(3);
    const [head, ...rows] = text.trimEnd().split('\n');
    expect(head).toBe('material,length,count,kind,cost_set');
    expect(rows).toContain('band,100 ft,1,spool,0.039');
    for (const line of rows) expect(line).toMatch(/^band,.*,spool,0\.039$/);
    expect(onHand(book).get('band')?.amount).toBeCloseTo(300 - (16 * 98) / 12, 6);
  });

  it('keeps cord and money: what was there and bought is cut, wasted or there, twice over', async () => {
    for (const name of ['starter', 'metric'] as const) {
      let book: BookText = demoBook(name);
      const lines =
        name === 'starter'
          ? 'wrist medium,30\nfob stout,40\nlead long,11\nsling bar,3'
          : 'float fob,40\nwrist 18,20\nlead 120,5';
      for (let turn = 0; turn < 2; turn += 1) {
        const before = onHand(book);
        const taken = await take(book, lines);
        const after = onHand(taken.book);
        const mmPerCord = name === 'starter' ? 304.8 : 1000;
        for (const cord of taken.report.cords) {
          const bought = cord.buy.reduce(
            (sum, each) => sum + ((each.packMm ?? 0) * each.packs) / mmPerCord,
            0,
          );
          const had = before.get(cord.material) ?? { amount: 0, value: 0 };
          const has = after.get(cord.material) ?? { amount: 0, value: 0 };
          const gone = (cord.cutMm + cord.wasteMm) / mmPerCord;
          // Lengths are written down to a thousandth.
          expect(Math.abs(had.amount + bought - gone - has.amount)).toBeLessThan(
            0.001 * (cord.stock.length + 2),
          );
          expect(has.amount).toBeLessThanOrEqual(had.amount + bought - gone + 1e-6);
          expect(has.value).toBeCloseTo(had.value + cord.buyCost - cord.goneCost, 2);
        }
        for (const part of taken.report.parts) {
          const bought = part.buy.reduce((sum, each) => sum + (each.packPieces ?? 0) * each.packs, 0);
          const had = before.get(part.material)?.amount ?? 0;
          expect(after.get(part.material)?.amount ?? 0).toBeCloseTo(had + bought - part.pieces, 9);
        }
        expect(taken.changes.length).toBeGreaterThan(0);
        // The next plan is made from the new stock, which reads without a fault.
        book = taken.book;
      }
    }
  });
});
