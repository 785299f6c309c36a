import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import {
  batchTables,
  type CutReport,
  cutBook,
  cutSettings,
  hasErrors,
  type Plan,
  type Problem,
  showNumber,
  switchBook,
} from '../../engine/index.ts';
import {
  type Batch,
  type CuttingProgress,
  cuttingProgress,
  makeTable,
  readBatch,
  secondsOf,
  stoppable,
} from '../batch.ts';
import { readSource } from '../bookFolder.ts';
import { writeWhole } from '../files/wholeFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { solverFromFile } from '../solverFile.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { count, showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';
import { version } from '../version.ts';
import { workbookFormat } from '../workbookFormat.ts';

interface Options {
  readonly out?: string;
  readonly as?: string;
  readonly replace?: true;
  readonly make?: string;
  /** False with --no-batch. */
  readonly batch: boolean;
  readonly time: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addWorkbook(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('workbook')
    .argument('<book>', 'folder of the book')
    .description('write the priced book as a workbook (.xlsx or .ods) in which every formula is live')
    .option('--out <file>', "where to write; default is the book's name with .xlsx, in this folder")
    .option('--as <format>', 'xlsx, or ods for OpenDocument; default is as the file name ends')
    .option('--replace', 'replace the file if it is there already')
    .option(
      '--make <file>',
      "what to make, for a cutting plan and a shopping list (default: the book's make.csv)",
    )
    .option('--no-batch', 'leave make.csv alone: no cutting plan and no shopping list')
    .option('--time <seconds>', 'at the latest then the best cutting plan so far is taken', '30')
    .option('--json', 'print what was written as JSON')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit workbook my-book
  $ sennit workbook my-book --out prices-november.xlsx --replace
  $ sennit workbook my-book --as ods
  $ sennit workbook my-book --make market.csv

The workbook opens in any spreadsheet program that reads .xlsx or, written as OpenDocument, .ods. Change wage, margin, cord prices,
lengths or cords in it, and every cost and price follows. Where the book has scenarios (scenarios.csv), its sheet
What-if switches one of them on, and every sheet shows it.

Where the book has a make.csv, or with --make, the batch is planned as sennit cut plans it, and the workbook has
four more sheets: Make, Cutting plan, Fittings, Shopping list. What is cut from what stands there as it was
found; lengths, costs and checks are live, and say so where a change has left the plan behind. Exit code 1 then
also says that no stock or pack is long enough for a piece; the workbook is written and marks it.`,
    )
    .action(async (folder: string, options: Options) => {
      const source = readSource(io, folder);
      const seconds = secondsOf(options.time);
      if (options.make !== undefined && !options.batch)
        throw new Hindrance('--make and --no-batch cannot stand together.\n  Leave out one of the two.', 2);
      const format = workbookFormat(options);
      const given = options.out ?? `${basename(resolve(io.folder, folder))}.${format}`;
      const date = today(io);
      const file = outputFile(io, given, options.replace === true, {
        ending: `.${format}`,
        example: options.as === undefined ? 'prices.xlsx or prices.ods' : `prices.${format}`,
        lost: 'Figures changed in it would be lost.',
      });
      const step = stepsOf(io, source, options, true);
      step('Pricing the book');
      const batch = readBatch(io, source, [], options.make);
      const refuse = (found: readonly Problem[]): void => {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems: found }));
        else io.err(`${showProblems(found, styleFor(io, options.plain))}\nNothing was written.\n`);
      };
      if (hasErrors(batch.priced.problems)) {
        refuse(batch.priced.problems);
        return;
      }
      const { priced, report } = await withBatch(io, batch, options.batch ? seconds : undefined, {
        step,
        cutting: cuttingProgress(io, options),
      });
      const { problems, plan, values } = priced;
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        refuse(problems);
        return;
      }
      // Loaded here and not at the start: no other command needs them.
      const { checkedByReference } = await import('../../engine/reference.ts');
      const { workbook } = await import('../../engine/export/workbook.ts');
      // What is handed over comes from the reference engine, and only where the quick path says the same.
      step('Calculating the book once more with the reference engine');
      const reference = checkedByReference(plan, values);
      const all = [...reference.problems, ...problems];
      if (hasErrors(reference.problems)) {
        refuse(all);
        return;
      }
      step(`Writing ${plan.sheets.length} sheets`);
      const bytes = await workbook(
        plan,
        reference.values,
        {
          date,
          version,
          files: source.book,
          // What is made from another file than the book's own cannot go home into it.
          foreign: options.make === undefined ? [] : [makeTable],
        },
        format,
      );
      writeWhole({ shown: given, path: file, bytes });
      if (report !== undefined && !report.complete) outcome.exitCode = 1;
      if (options.json) {
        io.out(
          json({
            file: given,
            bytes: bytes.length,
            sheets: plan.sheets.map((sheet) => sheet.title),
            problems: all,
            ...(report === undefined ? {} : { batch: report }),
          }),
        );
        return;
      }
      if (reference.problems.length > 0)
        io.err(showProblems(reference.problems, styleFor(io, options.plain)));
      const batchLines =
        report === undefined
          ? ''
          : `${options.make ?? 'make.csv'}: ${batchText(report, plan)}.\n${report.complete ? '' : 'Not everything can be cut: see the sheet Cutting plan.\n'}`;
      io.out(
        `Wrote ${given}: ${plan.sheets.length} sheets, every formula live.\nBegin on the sheet Start; yellow cells are yours to change.\n${batchLines}`,
      );
    });
}

/** Solves the batch, if there is one, and calculates the book once more with what was found as further tables. */
async function withBatch(
  io: Io,
  { priced, source, order }: Batch,
  seconds: number | undefined,
  tell: { readonly step: (text: string) => void; readonly cutting: CuttingProgress },
): Promise<{ readonly priced: Batch['priced']; readonly report?: CutReport }> {
  const { plan, values } = priced;
  if (plan === undefined || values === undefined) return { priced };
  if (seconds === undefined || order.length === 0) return { priced: switchBook(source) };
  const report = await stoppable(io, seconds, async (signal) =>
    cutBook(plan, values, order, await solverFromFile(), {
      ...cutSettings(plan, values),
      signal,
      progress: tell.cutting,
    }),
  );
  tell.step('Pricing the book with its cutting plan');
  return { priced: switchBook({ ...source, made: batchTables(plan, values, report) }), report };
}

function batchText(report: CutReport, plan: Plan): string {
  const made = report.make.reduce((sum, line) => sum + line.quantity, 0);
  const packs = report.shopping.reduce((sum, each) => sum + each.packs, 0);
  const cost = `${showNumber(report.shoppingCost, plan.settings.currencyDigits, plan.settings)} ${report.currency}`;
  return `${made} to make of ${count(report.make.length, 'product')}; ${packs === 0 ? 'nothing to buy' : `buy ${count(packs, 'pack')} for ${cost}`}${report.proven ? '' : ' (not proven to be the least)'}`;
}
