import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBook, placeText, priceBook, readBook } from '../../library/index.ts';
import { readBookFolder } from '../../library/node.ts';
import { demoBook, demoBooks } from '../support/books.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

/** What is done to a starter book in a fresh folder, and what is read of it then. */
function withStarter<T>(work: (book: string) => T): Promise<T> {
  return inFreshFolder(async (folder) => {
    await runCli(['new', 'mine'], { folder });
    return work(join(folder, 'mine'));
  });
}

describe('the folder of a book, read for the library', () => {
  it.each(demoBooks)('gives the tables and sheets of the book %s, and no other file', (name) => {
    const texts = readBookFolder(join('templates', 'books', name));
    expect(texts).toEqual(demoBook(name));
    const { result } = readBook(texts);
    expect(result?.settings.currency).toMatch(/^[A-Z]{3}$/);
    expect(result?.tables.get('products')?.rowCount).toBe(priceBook(texts).result?.products.length);
  });

  it('is read where a spreadsheet program saved a table as UTF-16', () =>
    withStarter((book) => {
      const before = readBookFolder(book);
      const file = join(book, 'materials.csv');
      writeFileSync(file, Buffer.from(`\uFEFF${readFileSync(file, 'utf8')}`, 'utf16le'));
      expect(priceBook(readBookFolder(book)).result).toEqual(priceBook(before).result);
    }));

  it('is read past hidden files, and names what no table is called', () =>
    withStarter((book) => {
      symlinkSync('nowhere', join(book, '.~lock.materials.csv#.csv'));
      writeFileSync(join(book, 'channel.csv'), 'channel\nmarket\n');
      mkdirSync(join(book, 'sales_plan.csv'));
      const problems = checkBook(readBookFolder(book)).filter(({ code }) => code === 'file-unknown');
      expect(problems.map(({ where }) => placeText(where)).sort()).toEqual([
        'channel.csv',
        'sales_plan.csv/',
      ]);
    }));

  it('throws what the file system says where there is none', () => {
    expect(() => readBookFolder('no/such/book')).toThrow(/ENOENT/);
  });
});
