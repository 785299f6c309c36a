import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import type { TakeinReport } from '../../engine/takeinBook.ts';
import { closedMonths, readSource } from '../bookFolder.ts';
import { commandName } from '../commandName.ts';
import { readRegularFile } from '../files/regularFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { showTakein } from '../terminal/showTakein.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';
import { writeBook } from '../writeBook.ts';

interface Options {
  readonly book?: string;
  readonly prefer?: 'workbook' | 'book';
  readonly yes?: true;
  readonly dryRun?: true;
  readonly json?: true;
  readonly plain?: true;
}

/** A workbook of ten thousand products is smaller than this. */
const longestWorkbook = {
  most: 200_000_000,
  tooLarge: 'is larger than 200 MB; that cannot be the workbook of a book.',
};

export function addTakein(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('takein')
    .argument('<workbook>', 'workbook that sennit workbook wrote, as any program saved it (.xlsx or .ods)')
    .argument('[book]', "folder of the book; default is the workbook's name without its ending")
    .description('take the changes that were made in a workbook into the book')
    .addOption(
      new Option('--prefer <side>', 'where both were changed since, whose value stands').choices([
        'workbook',
        'book',
      ]),
    )
    .option('--yes', 'write without asking')
    .option('--dry-run', 'show the changes and write nothing')
    .option('--json', 'print what was found as JSON (with --yes or --dry-run)')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit takein my-book.xlsx --dry-run
  $ sennit takein my-book.xlsx
  $ sennit takein prices-november.ods my-book --yes

Every input that was changed is shown with its old and its new value, and you are asked before the book is
written. Rows may have been sorted, removed, or added in the empty lines under a table. Formulas and sheets
of your own are named and left alone. Remarks, order and formatting of the book's files stay; copies of the
files as they were go into a folder of the book called backup- and the day.

Where the book was changed as well since the workbook was written, the two are compared with what was
written; what both changed differently is named, and nothing is written unless --prefer says which stands.`,
    )
    .action(async (file: string, given: string | undefined, options: Options) => {
      if (options.yes && options.dryRun)
        throw new Hindrance('--yes and --dry-run cannot stand together.\n  Leave out one of the two.', 2);
      if (options.json && !options.yes && !options.dryRun)
        throw new Hindrance(
          '--json asks nothing, so it has to be said whether to write.\n  Add --yes, or --dry-run.',
          2,
        );
      const folder = given ?? file.replace(/\.(xlsx|ods)$/i, '');
      if (given === undefined && folder === file)
        throw new Hindrance(
          `“${file}” does not end in .xlsx or .ods, so its book is not known.\n  Give the folder of the book after it.`,
          2,
        );
      if (given === undefined && !existsSync(resolve(io.folder, folder)))
        throw new Hindrance(
          `There is no folder “${folder}”, so the book of ${file} is not known.\n  Give the folder of the book after it: ${commandName(io)} takein ${file} my-book`,
        );
      const bytes = readWorkbook(io, file);
      const source = readSource(io, folder);
      // Loaded here and not at the start: no other command reads workbooks.
      const { takeinBook } = await import('../../engine/takeinBook.ts');
      stepsOf(io, source, options, true)(`Reading ${file} and comparing it with the book`);
      const report = takeinBook(source, {
        file,
        bytes,
        today: today(io),
        closed: closedMonths(io, folder),
        ...(options.prefer === undefined ? {} : { prefer: options.prefer }),
      });
      const isOpen = report.conflicts.length > 0 && options.prefer === undefined;
      const isRefused = report.problems.length > 0 || isOpen;
      if (isRefused) outcome.exitCode = 1;
      if (!options.json) show(io, report, folder, options);
      let backup: string | undefined;
      const wanted = !isRefused && report.files.size > 0 && options.dryRun !== true;
      const isWritten = wanted && (options.yes === true || (await isAgreed(io, folder)));
      if (isWritten) backup = writeBook(resolve(io.folder, folder), report.files, source.book, today(io));
      if (options.json) {
        io.out(json(asJson(report, isWritten, backup)));
        return;
      }
      if (isWritten) {
        const kept = backup === undefined ? '' : `As they were before: ${folder}/${backup}.\n`;
        io.out(
          `\nWrote ${[...report.files.keys()].join(', ')}.\n${kept}See the new prices: ${commandName(io)} price ${folder}\n`,
        );
      } else if (report.files.size > 0 || isRefused) io.out('\nNothing was written.\n');
    });
}

function readWorkbook(io: Io, file: string): Uint8Array {
  const path = resolve(io.folder, file);
  if (!existsSync(path))
    throw new Hindrance(`There is no file “${file}”.\n  Give the workbook that sennit workbook wrote.`);
  return readRegularFile(file, path, longestWorkbook);
}

/** Asks on the terminal; where there is none to ask on, says how to go on. */
async function isAgreed(io: Io, folder: string): Promise<boolean> {
  if (io.ask === undefined)
    throw new Hindrance(
      'Nothing was written, as there is no terminal to ask on.\n  Add --yes to write without being asked, or --dry-run to only look.',
      2,
    );
  const answer = await io.ask(`Write this into ${folder}? (y/n) `);
  return /^\s*y(es)?\s*$/i.test(answer);
}

function show(io: Io, report: TakeinReport, folder: string, { plain, prefer }: Options): void {
  const style = styleFor(io, plain);
  const width = io.columns ?? 80;
  io.out(showTakein(report, { style, width, book: folder, prefer }));
  if (report.problems.length > 0) io.err(showProblems(report.problems, style));
}

/** What `--json` prints; its type is what docs/reference/json.md shows. */
function asJson(report: TakeinReport, isWritten: boolean, backup: string | undefined) {
  return {
    ...(report.written === undefined ? {} : { workbookOf: report.written }),
    changedSince: report.changedSince,
    changes: report.changes,
    conflicts: report.conflicts,
    leftAlone: report.remarks,
    problems: report.problems,
    files: [...report.files.keys()],
    written: isWritten,
    ...(backup === undefined ? {} : { backup }),
  };
}
