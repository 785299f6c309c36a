import { describe, expect, it } from 'vitest';
import * as sennit from '../../library/index.ts';
import { loadedSolver } from '../support/solverForTests.ts';

const book = sennit.starterBook();

/** Codes and places of the errors among problems. */
function errors({ problems }: { readonly problems: readonly sennit.Problem[] }): readonly string[] {
  return problems
    .filter(({ severity }) => severity === 'error')
    .map(({ code, where }) => `${code}: ${sennit.placeText(where)}`);
}

describe('a question that is wrong is answered by problems with their place', () => {
  it.each<[sennit.Piece, readonly string[]]>([
    [{}, ['cell-missing: question, field length']],
    [{ length: '7 in', measure: '6 in' }, ['cell-clash: question, field length']],
    [{ length: '7' }, ['not-a-measure: question, field length']],
    // From a program without types.
    [JSON.parse('{ "length": 7 }'), ['not-a-measure: question, field length']],
    [
      { length: 'long', ease: '1 in', hardware: '1 in' },
      [
        'cell-clash: question, field ease',
        'cell-clash: question, field hardware',
        'not-a-measure: question, field length',
      ],
    ],
    [{ length: '7 in', weave: 'barr' }, ['reference-unknown: question, field weave']],
    [{ length: '7 in', layers: 1.5 }, ['not-a-number: question, field layers']],
    [
      { length: '7 in', spare: 'x', trim: 'y' },
      ['not-a-measure: question, field spare', 'not-a-measure: question, field trim'],
    ],
    [{ length: '-7 in' }, ['out-of-range: question, field length']],
    [{ measure: '6 in', hardware: '60 in' }, ['out-of-range: question, field hardware']],
  ])('of one piece: %j', (piece, expected) => {
    const answer = sennit.cordOfPiece(piece);
    expect(answer.result).toBeNull();
    expect([...errors(answer)].sort()).toEqual([...expected].sort());
  });

  it('of a change', () => {
    const answer = sennit.whatIf(book, { changes: ['nix +3 %', 'dearer cord'], scenarios: ['none such'] });
    expect(answer.result).toBeNull();
    expect(errors(answer)).toEqual(Array(3).fill('change-unclear: question'));
    const told = sennit.problemsText(answer.problems);
    expect(told).toContain('scenarios: ["dearer cord"]');
    expect(told).not.toContain('--');
  });

  it('of a batch', async () => {
    const make = { 'lead lon': 3, 'fob short': -1, 'fob long': 1.5, 'lead long': 10_001 };
    const answer = await sennit.planCutting(book, { solver: loadedSolver, make, keepMm: -1 });
    expect(answer.result).toBeNull();
    expect(errors(answer)).toEqual([
      'out-of-range: question, field keepMm',
      'reference-unknown: question, field make.lead lon',
      'not-a-number: question, field make.fob short',
      'not-a-number: question, field make.fob long',
      'out-of-range: question, field make.lead long',
    ]);
    expect(errors(await sennit.planCutting(book, { solver: loadedSolver, make: {} }))).toEqual([
      'cell-missing: question, field make',
    ]);
  });

  it('of a list and a workbook', async () => {
    expect(errors(sennit.listPrices(book, { channel: 'stal', validFrom: '2026-02-30' }))).toEqual([
      'date-unclear: question, field validFrom',
      'reference-unknown: question, field channel',
    ]);
    expect(errors(await sennit.writeWorkbook(book, { date: 'today' }))).toEqual([
      'date-unclear: question, field date',
    ]);
  });
});

describe('a book that is wrong', () => {
  const slips = { ...book, 'fees.csv': 'channel,fee,percent\nonlin,listing,three' };

  it('gives no result to any question, and the same errors to each', async () => {
    const answers = [
      sennit.readBook(slips),
      sennit.priceBook(slips),
      sennit.calculateBook(slips),
      sennit.whatIf(slips, { changes: ['wage +1'] }),
      sennit.listPrices(slips, { channel: 'stall', validFrom: '2026-12-01' }),
      await sennit.writePriceList(slips, { channel: 'stall', validFrom: '2026-12-01', format: 'csv' }),
      await sennit.planCutting(slips, { solver: loadedSolver }),
      await sennit.writeWorkbook(slips, { date: '2026-12-01' }),
      { result: null, problems: sennit.checkBook(slips) },
    ];
    for (const answer of answers) {
      expect(answer.result).toBeNull();
      expect(errors(answer)).toEqual([
        'not-a-number: fees.csv, row 2, column percent',
        'reference-unknown: fees.csv, row 2, column channel',
      ]);
    }
  });

  it('may be hardly a book at all', () => {
    for (const texts of [
      {},
      { 'book.yaml': '\0{' },
      { 'products.csv': '"' },
      new Map([['materials.csv/', '']]),
    ])
      expect(sennit.hasErrors(sennit.priceBook(texts).problems)).toBe(true);
  });
});

describe('a calculated book', () => {
  it('gives every cell of a sheet of its own', () => {
    const own = sennit.starterBook('metric');
    expect(Object.keys(own)).toContain('sheets/labels.yaml');
    const { result } = sennit.calculateBook(own);
    const products = result?.find(({ id }) => id === 'products');
    expect(result?.find(({ id }) => id === 'labels')?.rowCount).toBe(products?.rowCount);
    const prices = sennit.priceBook(own).result;
    const costs = result?.find(({ id }) => id === 'costs')?.columns.find(({ id }) => id === 'unit_cost');
    expect(costs?.computed).toBe(true);
    expect(costs?.values).toEqual(prices?.products.map(({ unitCost }) => unitCost));
  });
});

it.each([['"my-book"'], ['null'], ['7']])(
  'a program without types that gives %s for a book is told what a book is',
  (given) => {
    expect(() => sennit.priceBook(JSON.parse(given))).toThrow(/texts of its files by name.*readBookFolder/);
  },
);
