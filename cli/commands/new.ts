import { mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { Command } from 'commander';
import { templatesFolder } from '../bookFolder.ts';
import { commandName } from '../commandName.ts';
import { locked } from '../files/bookLock.ts';
import { decide, dispose, finish, isPending, stage } from '../files/change.ts';
import { writeToDisk } from '../files/wholeFile.ts';
import { reading, writing } from '../hindered.ts';
import { Hindrance, type Io } from '../io.ts';
import { json } from '../terminal/json.ts';

export function addNew(program: Command, io: Io): void {
  program
    .command('new')
    .argument('<folder>', 'folder to make; it must not exist yet, or be empty')
    .description('make a starter book: a small invented workshop to change into your own')
    .option('--metric', 'centimetres, metres, decimal commas and value-added tax')
    .option('--json', 'print what was made as JSON')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit new my-book
  $ sennit new my-metric-book --metric`,
    )
    .action((folder: string, options: { readonly metric?: true; readonly json?: true }) => {
      const target = resolve(io.folder, folder);
      const there = writing(`“${folder}”`, () => statSync(target, { throwIfNoEntry: false }));
      if (there !== undefined && !there.isDirectory()) {
        throw new Hindrance(`“${folder}” is a file; nothing was written.\n  Choose another folder.`);
      }
      // What an earlier run left, that was killed while it filled this very folder, is not the maker's.
      if (there !== undefined && isPending(target)) locked(target, 'The book', () => finish(target));
      const found = there === undefined ? [] : reading(`“${folder}”`, () => readdirSync(target));
      if (found.some((name) => !name.startsWith('.sennit-'))) {
        throw new Hindrance(
          `“${folder}” is there already and is not empty; nothing was written.\n  Choose another folder.`,
        );
      }
      const from = join(templatesFolder, 'books', options.metric ? 'metric' : 'starter');
      writing(`“${folder}”`, () => copyBook(from, target, there !== undefined));
      if (options.json) {
        io.out(json({ folder, files: readdirSync(target).sort() }));
        return;
      }
      const here = target === resolve(io.folder);
      io.out(`A starter book stands in ${here ? 'this folder' : folder}.

  about.txt      what each table and column is
  book.yaml      wage, hours, margin, tax; each line explained
  materials.csv  what you buy;  products.csv  what you make

Change the figures to your own, then:
  ${commandName(io)} check ${folder}
  ${commandName(io)} price ${folder}
`);
    });
}

/**
 * A new folder comes into being with everything in it: it is filled under another name. A folder that is there is
 * filled and not replaced, as it may be the one that the maker stands in, or be reached by a link: there the book is
 * a change of it, which happens whole or not at all.
 */
function copyBook(from: string, target: string, there: boolean): void {
  if (there) {
    locked(target, 'The book', () => {
      finish(target);
      const staged = stage(target, 'The book', (folder) => copyInto(from, folder));
      decide(target, staged, 'The book');
    });
    return;
  }
  mkdirSync(dirname(target), { recursive: true });
  const draft = mkdtempSync(`${target}.part-`);
  try {
    const book = join(draft, 'book');
    copyInto(from, book);
    renameSync(book, target);
  } finally {
    dispose(draft);
  }
}

/** Copies file by file, each down to the disk, with the rights of new files and not those of the package. */
function copyInto(from: string, to: string): void {
  mkdirSync(to, { recursive: true });
  for (const each of readdirSync(from, { withFileTypes: true })) {
    if (each.isDirectory()) copyInto(join(from, each.name), join(to, each.name));
    else writeToDisk(join(to, each.name), readFileSync(join(from, each.name)));
  }
}
