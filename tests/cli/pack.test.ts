import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { pack, run, typeErrors, withConsumer } from '../support/consumer.ts';
import { inFreshFolder } from '../support/runCli.ts';

/** Each export of both faces is spoken of, so that every declaration is looked at. */
const wholeFace = `import * as sennit from 'sennit';
import { type Answer, type BookTexts, priceBook, type PriceReport } from 'sennit';
import * as node from 'sennit/node';

const book: BookTexts = { 'book.yaml': '' };
const answer: Answer<PriceReport> = priceBook(book);
export const products: readonly sennit.ProductPrice[] = answer.result?.products ?? [];
export const solver: Promise<sennit.LoadedSolver> = node.shippedSolver();
export const folder: BookTexts = node.readBookFolder('mine');
export const code: sennit.ProblemCode = sennit.problemCodes[0];
`;

/** What must not pass: each line is an error, so that declarations full of \`any\` would be noticed. */
const mistakes = `import { cordOfPiece, planCutting, priceBook, writeWorkbook } from 'sennit';

priceBook({ 'book.yaml': 1 });
priceBook({}).result.products;
priceBook({}).result?.products[0]?.price;
cordOfPiece({ length: '7 in', colours: { upper: 'red' } });
planCutting({}, { solver: {} });
writeWorkbook({}, { date: '2026-11-26', format: 'xls' });
`;

describe('the packed tarball', () => {
  const said: Record<string, string> = {};
  const errors: Record<string, readonly string[]> = {};
  let files: readonly string[] = [];

  // One installation, as it takes longest.
  beforeAll(() =>
    withConsumer((folder) => {
      const sennit = join(folder, 'node_modules', '.bin', 'sennit');
      const ask = (name: string, ...args: readonly string[]): void => {
        said[name] = run(sennit, args, folder);
      };
      ask('cord', 'cord', '--length', '7 in', '--json');
      ask('new', 'new', 'mine');
      ask('price', 'price', 'mine');
      ask('cut', 'cut', 'mine', 'lead long=3');
      ask('workbook', 'workbook', 'mine');
      files = readdirSync(folder);
      writeFileSync(join(folder, 'whole.ts'), wholeFace);
      writeFileSync(join(folder, 'mistakes.ts'), mistakes);
      for (const way of ['nodenext', 'bundler'] as const) {
        errors[way] = typeErrors(folder, ['whole.ts'], way, []);
        errors[`${way}, mistakes`] = typeErrors(folder, ['mistakes.ts'], way, []);
      }
    }),
  );

  it('installs elsewhere without the network and does the whole job', () => {
    const cord = JSON.parse(said.cord ?? '') as { totalMm: number };
    expect(cord.totalMm).toBeCloseTo(2141.06, 1);
    expect(said.price).toMatch(/^\d+ products/);
    // Loads the solver from beside the installed program.
    expect(said.cut).toContain('Shopping list');
    expect(files).toContain('mine.xlsx');
    expect(files.some((file) => file.includes('.part'))).toBe(false);
  });

  it.each(['nodenext', 'bundler'])(
    'has declarations that compile strictly, by themselves, with moduleResolution %s',
    (way) => {
      expect(errors[way]).toEqual([]);
      const lines = errors[`${way}, mistakes`]?.map((error) => Number(/mistakes\.ts:(\d+)/.exec(error)?.[1]));
      expect(lines).toEqual([3, 4, 5, 6, 7, 8]);
    },
  );

  it('is the same to the byte when packed again', () =>
    inFreshFolder(async (folder) => {
      const sums = ['one', 'other'].map((name) => {
        mkdirSync(join(folder, name));
        return createHash('sha256')
          .update(readFileSync(pack(join(folder, name))))
          .digest('hex');
      });
      expect(sums[0]).toBe(sums[1]);
    }));
});
