import { resolve } from 'node:path';
import type { Command } from 'commander';
import {
  convertLength,
  cutBook,
  cutSettings,
  hasErrors,
  type Plan,
  type Problem,
  parseMeasure,
  productNames,
  stockChanges,
} from '../../engine/index.ts';
import { cuttingProgress, readBatch, secondsOf, stoppable } from '../batch.ts';
import { readSource } from '../bookFolder.ts';
import { editTextFile } from '../editTextFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { solverFromFile } from '../solverFile.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showCut } from '../terminal/showCut.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { showStockChanges } from '../terminal/showStockChanges.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly make?: string;
  readonly keep?: string;
  readonly cutLoss?: string;
  readonly time: string;
  readonly write?: true;
  readonly dryRun?: true;
  readonly json?: true;
  readonly plain?: true;
}

export function addCut(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('cut')
    .argument('<book>', 'folder of the book')
    .argument('[product=quantity...]', "what to make; without any, the book's make.csv")
    .description('what to cut from which spool for a batch, and what to buy for it')
    .option('--make <file>', 'take what to make from a table with the columns product and quantity')
    .option(
      '--keep <measure>',
      'what is left over goes back to stock from this length (default: keep_from of book.yaml, 3 ft or 1 m)',
    )
    .option('--cut-loss <measure>', 'cord that every cut loses (default: cut_loss of book.yaml, none)')
    .option('--time <seconds>', 'at the latest then the best plan so far is shown', '30')
    .option('--write', 'take the batch off stock.csv: what is cut, what comes back, what is bought')
    .option('--dry-run', 'show what --write would change, and change nothing')
    .option('--json', 'print the plan as JSON, lengths in millimetres')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit cut my-book "wrist medium=24" "collar large=6"
  $ sennit cut my-book --make market.csv --keep "18 in"
  $ sennit cut my-book --dry-run
  $ sennit cut my-book --write
  $ sennit cut my-book --make market.csv --json > plan.json

Cut lengths are those of the sheet Cuts. What stock on hand (stock.csv) does not suffice for is bought at the
least cost, in whole packs of materials.csv and packs.csv; then as little stock as possible is opened. Ctrl-C
shows the best plan so far. Without --write nothing is written into the book. How it is worked out:
docs/cutting.md.

Exit code 1 where the book has errors, or where no stock or pack is left that is long enough for a piece.

In JSON, cords and parts hold one entry for each material: what is cut, from what, what is missing, what to
buy. Lengths end in Mm, shares in Ratio (0.4 is 40 %); money is in the book's currency. stockRow and packsRow
count the rows of the sheets Stock lengths and Packs from 0. A quality has bound (no plan does better), proven,
and gapRatio. stockChanges are rows of stock.csv before and after; written says whether they were made.`,
    )
    .action(async (folder: string, make: readonly string[], options: Options) => {
      const seconds = secondsOf(options.time);
      const read = readSource(io, folder);
      stepsOf(io, read, options)('Pricing the book');
      const { priced, source, order } = readBatch(io, read, make, options.make);
      const { problems, plan, values } = priced;
      const style = styleFor(io, options.plain);
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        refuse(io, outcome, problems, options);
        return;
      }
      if (order.length === 0) {
        const some = [...productNames(plan, values).values()][0] ?? 'wrist medium';
        throw new Hindrance(
          `Nothing to make was given.\n  Add product=quantity, such as "${some}=12", or --make with a table, or put a table make.csv into the book.`,
          2,
        );
      }
      const rates = cutSettings(plan, values);
      const how = {
        keepMm: lengthMm('--keep', options.keep, plan) ?? rates.keepMm,
        cutLossMm: lengthMm('--cut-loss', options.cutLoss, plan) ?? rates.cutLossMm,
      };
      const report = await stoppable(io, seconds, async (signal) =>
        cutBook(plan, values, order, await solverFromFile(), {
          ...how,
          signal,
          progress: cuttingProgress(io, options),
        }),
      );
      if (!report.complete) outcome.exitCode = 1;
      const wants = options.write === true || options.dryRun === true;
      const mayWrite =
        options.write === true && options.dryRun !== true && report.complete && !report.stopped;
      const stock = source.book.get('stock.csv');
      const taken = wants ? stockChanges(stock, plan, values, report) : undefined;
      if (taken !== undefined && mayWrite && taken.changes.length > 0)
        writeStock(resolve(io.folder, folder), stock, taken.text);
      if (options.json) {
        io.out(
          json({
            ...report,
            ...(taken === undefined ? {} : { stockChanges: taken.changes, written: mayWrite }),
          }),
        );
        return;
      }
      const width = io.columns ?? 80;
      io.out(showCut(report, { width, style, settings: plan.settings }));
      if (taken !== undefined)
        io.out(`\n${showStockChanges(taken.changes, stateOf(report, options), { width, style })}`);
    });
}

function refuse(io: Io, outcome: Outcome, problems: readonly Problem[], options: Options): void {
  outcome.exitCode = 1;
  if (options.json) io.out(json({ problems }));
  else io.err(showProblems(problems, styleFor(io, options.plain)));
}

function stateOf(
  report: { readonly complete: boolean; readonly stopped: boolean },
  options: Options,
): 'written' | 'dry' | 'incomplete' | 'stopped' {
  if (options.dryRun === true) return 'dry';
  if (!report.complete) return 'incomplete';
  return report.stopped ? 'stopped' : 'written';
}

/** Changes stock.csv, unless it is no longer what the plan was made from: cord must not be taken unseen. */
function writeStock(folder: string, planned: string | undefined, after: string): void {
  editTextFile(folder, 'stock.csv', (now) => {
    if ((now ?? '') !== (planned ?? ''))
      throw new Hindrance(
        'stock.csv was changed while the plan was made; nothing was written.\n  Run the command again: it plans from what is there now.',
      );
    return after;
  });
}

function lengthMm(option: string, text: string | undefined, plan: Plan): number | undefined {
  if (text === undefined) return undefined;
  const { lengthUnit, decimal } = plan.settings;
  const measure = parseMeasure(text, decimal);
  if (measure === undefined || measure.value < 0)
    throw new Hindrance(`${option} “${text}” is not a length.\n  Write it as "18 in" or "50 cm".`, 2);
  return convertLength(measure.value, measure.unit ?? lengthUnit, 'mm');
}
