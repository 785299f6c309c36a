import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const batchSheets = ['Make', 'Cutting plan', 'Fittings', 'Shopping list'];

function inStarter<T>(work: (folder: string) => Promise<T>): Promise<T> {
  return inFreshFolder(async (folder) => {
    await runCli(['new', 'mine'], { folder });
    return work(folder);
  });
}

async function titles(file: string): Promise<string[]> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(readFileSync(file).buffer as ArrayBuffer);
  return book.worksheets.map(({ name }) => name);
}

describe('sennit workbook with a batch', () => {
  it("plans the book's make.csv, and says what there is to make and to buy", () =>
    inStarter(async (folder) => {
      const { exitCode, out } = await runCli(['workbook', 'mine'], { folder });
      expect(exitCode).toBe(0);
      expect(out).toMatch(/make\.csv: 65 to make of 7 products; buy \d+ packs for [\d.]+ USD\.\n$/);
      const found = await titles(join(folder, 'mine.xlsx'));
      expect(found.filter((title) => batchSheets.includes(title))).toEqual(batchSheets);
      // Behind them stands only the hidden sheet.
      expect(found.at(-2)).toBe('Checks');
    }));

  it('takes another table instead, and none where it is told to or there is none', () =>
    inStarter(async (folder) => {
      writeFileSync(join(folder, 'fair.csv'), 'product;quantity\nfob short;5\n');
      const other = await runCli(['workbook', 'mine', '--make', 'fair.csv', '--json'], { folder });
      expect((JSON.parse(other.out) as { batch: { make: unknown } }).batch.make).toEqual([
        { product: 'fob short', quantity: 5 },
      ]);
      const without = await runCli(['workbook', 'mine', '--no-batch', '--replace'], { folder });
      expect(without.out).not.toContain('to make');
      const plain = await titles(join(folder, 'mine.xlsx'));
      expect(plain.filter((title) => batchSheets.includes(title))).toEqual([]);
      rmSync(join(folder, 'mine', 'make.csv'));
      expect((await runCli(['workbook', 'mine', '--replace'], { folder })).exitCode).toBe(0);
      expect(await titles(join(folder, 'mine.xlsx'))).toEqual(plain);
    }));

  it('writes and marks what cannot be cut, and exits with 1', () =>
    inStarter(async (folder) => {
      const materials = join(folder, 'mine', 'materials.csv');
      const text = readFileSync(materials, 'utf8');
      writeFileSync(materials, text.replace(/^(cream cord,.*?)"1,000 ft"/m, '$11 ft'));
      writeFileSync(join(folder, 'fair.csv'), 'product,quantity\ncamera slim,1\n');
      const { exitCode, out } = await runCli(['workbook', 'mine', '--make', 'fair.csv'], { folder });
      expect(exitCode).toBe(1);
      expect(out).toContain('Not everything can be cut: see the sheet Cutting plan.');
      expect(await titles(join(folder, 'mine.xlsx'))).toEqual(expect.arrayContaining(batchSheets));
    }));

  it.each([
    [['--make', 'fair.csv', '--no-batch'], 2, 'cannot stand together'],
    [['--make', 'fair.csv'], 1, 'fair.csv, row 2, column product: “fob shrt” is not in products.'],
    [['--time', 'soon'], 2, '--time “soon” is not a number of seconds'],
  ])('refuses %j and writes nothing', (args, code, message) =>
    inStarter(async (folder) => {
      writeFileSync(join(folder, 'fair.csv'), 'product,quantity\nfob shrt,5\n');
      const { exitCode, err } = await runCli(['workbook', 'mine', ...args], { folder });
      expect(exitCode).toBe(code);
      expect(err).toContain(message);
      expect(() => readFileSync(join(folder, 'mine.xlsx'))).toThrow();
    }),
  );
});
