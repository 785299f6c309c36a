import { cpSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { Command } from 'commander';
import { templatesFolder } from '../bookFolder.ts';
import { commandName } from '../commandName.ts';
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
      if (there !== undefined && reading(`“${folder}”`, () => readdirSync(target)).length > 0) {
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
 * Copies into a draft of our own making first: a copy that breaks off leaves no half a book. A folder that is
 * there is filled and not replaced: it may be the one that the maker stands in, or be reached by a link.
 */
function copyBook(from: string, target: string, there: boolean): void {
  if (!there) mkdirSync(dirname(target), { recursive: true });
  const draft = mkdtempSync(there ? join(target, '.part-') : `${target}.part-`);
  const book = join(draft, 'book');
  try {
    cpSync(from, book, { recursive: true });
    if (there) for (const name of readdirSync(book)) renameSync(join(book, name), join(target, name));
    else renameSync(book, target);
  } finally {
    rmSync(draft, { recursive: true, force: true });
  }
}
