import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { Command } from 'commander';
import {
  type BookFiles,
  closedFile,
  closedText,
  hasErrors,
  journalCsv,
  type MonthBook,
  type MonthPeriod,
  monthBook,
  monthFront,
  monthPeriod,
  monthReport,
} from '../../engine/index.ts';
import { readMonthSource } from '../bookFolder.ts';
import { locked } from '../files/bookLock.ts';
import { inBook } from '../files/inBook.ts';
import { writeAllWhole, writeWhole } from '../files/wholeFile.ts';
import { writing } from '../hindered.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { sha256 } from '../sha256.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showHow } from '../terminal/showHow.ts';
import { showMonth, tellMonth } from '../terminal/showMonth.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';
import { version } from '../version.ts';
import { workbookFormat } from '../workbookFormat.ts';

interface Options {
  readonly out?: string;
  readonly as?: string;
  readonly journal?: string;
  readonly replace?: true;
  readonly close?: true;
  readonly reopen?: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addMonth(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('month')
    .argument('<book>', 'folder of the book')
    .argument('<month>', 'year and month, such as 2026-10')
    .description('the month for the bookkeeper: journal, sales, purchases, stock, cost of sales and tax')
    .option(
      '--out <file>',
      "where to write; default is the book's name and the month with .xlsx, in this folder",
    )
    .option('--as <format>', 'xlsx, or ods for OpenDocument; default is as the file name ends')
    .option('--journal <file>', 'write the journal as a table (.csv) as well')
    .option('--replace', 'replace files that are there already')
    .option('--close', 'close the month: keep its figures in the book, and tell whenever they change')
    .option('--reopen <month>', 'open a closed month again; say its name once more')
    .option('--json', 'print all figures as JSON, unrounded; the workbook is written only with --out')
    .option('--plain', 'in sentences, without columns, marks or colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit month my-book 2026-10
  $ sennit month my-book 2026-10 --journal october.csv
  $ sennit month my-book 2026-10 --as ods
  $ sennit month my-book 2026-10 --close
  $ sennit month my-book 2026-10 --reopen 2026-10

Reads purchases.csv, made.csv, used.csv, sales.csv and stocktakes.csv, and writes a workbook in which every
total is a formula. accounts.csv says which account code each posting goes to. The journal is written in
the book's own notation, days as 2026-10-31.

Closing keeps the month in closed/2026-10.csv, in the book. From then on its figures are compared with the
book: where one is another, the month is not written and the exit code is 1; the next month opens with what
was closed, and shows the difference in a column of its own. sennit check tells of it too.

These are figures for a bookkeeper, no tax or accounting advice: local rules and a licensed professional
decide. See docs/month.md.

In JSON, money is in the book's currency. channels have piecesSold, net, tax, fees, shouldArrive,
costOfSales and grossMargin; materials and finishedGoods have opening, in, out, taken, counted, corrected
and closing, by value; lateChanges (posted for closed months, debits positive) have posting, channel and
change; variances (positive is above plan) have price, usage, lost, wageRate, efficiency and overhead;
journal has entry, date, account, name, posting, text, debit and credit.`,
    )
    .action(async (folder: string, given: string, options: Options) => {
      const month = monthPeriod(given);
      if (month === undefined)
        throw new Hindrance(`“${given}” is no month.\n  Write year and month, such as 2026-10.`, 2);
      const format = workbookFormat(options);
      const date = today(io);
      const style = styleFor(io, options.plain);
      const source = readMonthSource(io, folder);
      const bookFolder = resolve(io.folder, folder);
      const reopened =
        options.reopen === undefined ? undefined : reopening(options.reopen, month, source.closed.files);
      if (options.close && month.lastDate >= date)
        throw new Hindrance(
          `${month.name} is not over; nothing was written.\n  Close it when its last day has passed.`,
        );
      const files = new Map([...source.closed.files].filter(([name]) => name !== reopened));
      const step = stepsOf(io, source.source, options, true);
      step(`Pricing the book and adding up ${month.name}`);
      const made = monthBook({ ...source, closed: { ...source.closed, files } }, month);
      const refuse = (problems: MonthBook['problems']): void => {
        outcome.exitCode = 1;
        if (options.json)
          io.out(json({ problems, ...('changes' in made ? { changedSinceClosing: made.changes } : {}) }));
        else io.err(`${showProblems(problems, style)}\nNothing was written.\n`);
      };
      if (!('plan' in made) || hasErrors(made.problems)) {
        refuse(made.problems);
        return;
      }
      // Only now: what is told of a closed month must not hang on a file that is in the way.
      const shown =
        options.out ?? (options.json ? undefined : `${basename(bookFolder)}-${month.id}.${format}`);
      const replace = options.replace === true;
      const file =
        shown === undefined
          ? undefined
          : outputFile(io, shown, replace, {
              ending: `.${format}`,
              example: `${month.id}.${format}`,
              lost: 'What was signed or changed in it would be lost.',
            });
      const table =
        options.journal === undefined
          ? undefined
          : outputFile(io, options.journal, replace, {
              ending: '.csv',
              example: 'journal.csv',
              lost: 'It would be lost.',
            });
      const looks = [...made.problems];
      const outputs: { shown: string; path: string; bytes: Uint8Array }[] = [];
      if (shown !== undefined && file !== undefined) {
        step(`Writing the workbook of ${month.name}`);
        const { problems, bytes } = await monthWorkbook(made, date, format, source.source.book);
        if (bytes === undefined) {
          refuse(problems);
          return;
        }
        looks.push(...problems);
        outputs.push({ shown, path: file, bytes });
      }
      if (table !== undefined && options.journal !== undefined)
        outputs.push({
          shown: options.journal,
          path: table,
          bytes: Buffer.from(journalCsv(made.journal, made.plan.settings)),
        });
      writeAllWhole(outputs);
      const written = outputs.map((each) => each.shown);
      if (reopened !== undefined) written.push(putAside(bookFolder, reopened, date));
      const closes = options.close === true && made.closed === undefined;
      if (closes) written.push(close(bookFolder, made, date));
      const report = monthReport({ ...made, problems: looks });
      if (options.json) {
        io.out(
          json({
            ...report,
            changedSinceClosing: made.changes,
            closedOn: closes ? date : report.closedOn,
            written,
          }),
        );
        return;
      }
      const how = {
        ...showHow(io, style, made.plan.settings, folder),
        written,
        sheets: made.plan.sheets.length,
        closes,
      };
      io.out(options.plain ? tellMonth(report, how) : showMonth(report, how));
      const problems = showProblems(looks, style);
      if (problems !== '') io.out(`\n${problems}`);
    });
}

async function monthWorkbook(
  { plan, values, month, stockRule }: MonthBook,
  date: string,
  format: ReturnType<typeof workbookFormat>,
  files: BookFiles,
): Promise<{ readonly problems: MonthBook['problems']; readonly bytes?: Buffer }> {
  // Loaded here and not at the start: no other command needs them.
  const { checkedByReference } = await import('../../engine/reference.ts');
  const { workbook } = await import('../../engine/export/workbook.ts');
  const reference = checkedByReference(plan, values);
  // What is handed over comes from the reference engine, and only where the quick path says the same.
  const { problems } = reference;
  if (hasErrors(problems)) return { problems };
  const front = monthFront(month.name, stockRule);
  const about = { date, version, front, files };
  return { problems, bytes: Buffer.from(await workbook(plan, reference.values, about, format)) };
}

/** The file of the month that is opened again. Consent is its name, said once more; later months stay closed by it. */
function reopening(word: string, month: MonthPeriod, closed: ReadonlyMap<string, string>): string {
  const file = closedFile(month.id);
  if (word !== month.id)
    throw new Hindrance(
      `--reopen says “${word}”, and the month is ${month.id}.\n  To open it again write --reopen ${month.id}.`,
      2,
    );
  if (!closed.has(file))
    throw new Hindrance(`${month.name} is not closed; nothing was written.\n  Leave out --reopen.`);
  const later = [...closed.keys()].filter((name) => name > file).sort();
  if (later.length > 0)
    throw new Hindrance(
      `${month.name} cannot be opened while a later month is closed (${later.join(', ')}); nothing was written.\n  Open the last one first.`,
    );
  return file;
}

/** Keeps what was closed under another name, which nothing reads. */
function putAside(bookFolder: string, file: string, date: string): string {
  const stem = file.replace(/\.csv$/, '');
  return locked(bookFolder, file, () => {
    for (let count = 1; ; count += 1) {
      const name = `${stem} opened ${date}${count === 1 ? '' : ` ${count}`}.csv`;
      if (existsSync(join(bookFolder, name))) continue;
      writing(name, () => {
        const from = inBook(bookFolder, file);
        renameSync(join(bookFolder, from), join(bookFolder, dirname(from), basename(name)));
      });
      return name;
    }
  });
}

function close(bookFolder: string, { month, plan, figures }: MonthBook, date: string): string {
  const name = closedFile(month.id);
  const text = closedText(
    { month: month.id, closedOn: date, currency: plan.settings.currency, figures },
    sha256,
  );
  return locked(bookFolder, name, () => {
    const path = join(
      bookFolder,
      writing(name, () => inBook(bookFolder, name)),
    );
    if (existsSync(path))
      throw new Hindrance(`${name} was written just now by another run.\n  Run the command again.`);
    writing(name, () => mkdirSync(dirname(path), { recursive: true }));
    writeWhole({ shown: name, path, bytes: text });
    return name;
  });
}
