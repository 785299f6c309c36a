import { cpSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { Command } from 'commander';
import { templatesFolder } from '../bookFolder.ts';
import { commandName } from '../commandName.ts';
import { hindered } from '../hindered.ts';
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
  $ sennit new mein-buch --metric`,
    )
    .action((folder: string, options: { readonly metric?: true; readonly json?: true }) => {
      const target = resolve(io.folder, folder);
      if (existsSync(target) && readdirSync(target).length > 0) {
        throw new Hindrance(
          `“${folder}” is there already and is not empty; nothing was written.\n  Choose another folder.`,
        );
      }
      const from = join(templatesFolder, 'books', options.metric ? 'metric' : 'starter');
      // Copied under another name first: a copy that breaks off leaves no half a book.
      const draft = `${target}.part`;
      hindered(`“${folder}” could not be written`, () => {
        mkdirSync(dirname(target), { recursive: true });
        rmSync(draft, { recursive: true, force: true });
        cpSync(from, draft, { recursive: true });
        if (existsSync(target)) rmSync(target, { recursive: true });
        renameSync(draft, target);
      });
      if (options.json) {
        io.out(json({ folder, files: readdirSync(target).sort() }));
        return;
      }
      io.out(`A starter book stands in ${folder}.

  about.txt      what each table and column is
  book.yaml      wage, hours, margin, tax; each line explained
  materials.csv  what you buy;  products.csv  what you make

Change the figures to your own, then:
  ${commandName(io)} check ${folder}
  ${commandName(io)} price ${folder}
`);
    });
}
