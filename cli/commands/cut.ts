import type { Command } from 'commander';
import {
  convertLength,
  cutBook,
  hasErrors,
  type Plan,
  type Problem,
  parseMeasure,
  priceBook,
  productNames,
} from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { orderOf } from '../orderArguments.ts';
import { solverFromFile } from '../solverFile.ts';
import { json } from '../terminal/json.ts';
import { showCut } from '../terminal/showCut.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly make?: string;
  readonly keep?: string;
  readonly time: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addCut(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('cut')
    .argument('<book>', 'folder of the book')
    .argument('[product=quantity...]', 'what to make')
    .description('what to cut from which spool for a batch, and what to buy for it')
    .option('--make <file>', 'take what to make from a table with the columns product and quantity')
    .option(
      '--keep <measure>',
      'what is left over goes back to stock from this length (default: 3 ft, or 1 m)',
    )
    .option('--time <seconds>', 'at the latest then the best plan so far is shown', '30')
    .option('--json', 'print the plan as JSON, lengths in millimetres')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit cut my-book "wrist medium=24" "collar large=6"
  $ sennit cut my-book --make market.csv --keep "18 in"
  $ sennit cut my-book --make market.csv --json > plan.json

Cut lengths are those of the sheet Cuts. What stock on hand (stock.csv) does not suffice for is bought at the
least cost, in whole packs of materials.csv and packs.csv; then as little stock as possible is opened. Ctrl-C
shows the best plan so far. Nothing is written into the book. How it is worked out: docs/cutting.md.

Exit code 1 where the book has errors, or where no stock or pack is left that is long enough for a piece.

In JSON, cords and parts hold one entry for each material: what is cut, from what, what is missing, what to
buy. Lengths end in Mm, shares in Ratio (0.4 is 40 %); money is in the book's currency. A quality has bound (no
plan does better), proven, and gapRatio.`,
    )
    .action(async (folder: string, make: readonly string[], options: Options) => {
      const { problems, plan, values } = priceBook(readSource(io, folder));
      const style = styleFor(io, options.plain);
      const refuse = (found: readonly Problem[]): void => {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems: found }));
        else io.err(showProblems(found, style));
      };
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        refuse(problems);
        return;
      }
      const { order, problems: orderProblems } = orderOf(io, make, options.make, plan, values);
      if (hasErrors(orderProblems)) {
        refuse(orderProblems);
        return;
      }
      if (order.length === 0)
        throw new Hindrance(
          `Nothing to make was given.\n  Add product=quantity, such as "${[...productNames(plan, values).values()][0] ?? 'wrist medium'}=12", or --make with a table.`,
          2,
        );
      const report = await stoppable(io, secondsOf(options.time), async (signal) =>
        cutBook(plan, values, order, await solverFromFile(), {
          keepMm: keepMm(options.keep, plan),
          signal,
          progress: ({ material }) =>
            io.progress?.(`Cutting ${material} (Ctrl-C shows the best plan so far)`),
        }),
      );
      if (!report.complete) outcome.exitCode = 1;
      io.out(
        options.json
          ? json(report)
          : showCut(report, { width: io.columns ?? 80, style, settings: plan.settings }),
      );
    });
}

/** Runs a search that ends early on Ctrl-C and when its time is over. */
async function stoppable<T>(
  io: Io,
  seconds: number,
  search: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  const controller = new AbortController();
  const stop = (): void => controller.abort();
  const timer = setTimeout(stop, seconds * 1000);
  const restore = io.onInterrupt?.(stop);
  try {
    return await search(controller.signal);
  } finally {
    clearTimeout(timer);
    restore?.();
    io.progress?.('');
  }
}

function keepMm(text: string | undefined, plan: Plan): number {
  const { lengthUnit, decimal } = plan.settings;
  // Common practice, no source: what is shorter than an arm is not worth winding up again.
  if (text === undefined) return lengthUnit === 'in' ? convertLength(3, 'ft', 'mm') : 1000;
  const measure = parseMeasure(text, decimal);
  if (measure === undefined || measure.value < 0)
    throw new Hindrance(`--keep “${text}” is not a length.\n  Write it as "18 in" or "50 cm".`, 2);
  return convertLength(measure.value, measure.unit ?? lengthUnit, 'mm');
}

function secondsOf(text: string): number {
  const seconds = Number(text);
  // A timer cannot wait longer than 24 days; a day is more than anyone will.
  if (text.trim() === '' || !(seconds >= 0) || seconds > 86_400)
    throw new Hindrance(`--time “${text}” is not a number of seconds up to a day.\n  Write it as 30.`, 2);
  return seconds;
}
