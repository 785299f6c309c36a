import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Command } from 'commander';
import {
  combined,
  convertLength,
  cutBook,
  hasErrors,
  largestQuantity,
  type Order,
  type Plan,
  type Problem,
  parseMeasure,
  priceBook,
  productNames,
  readOrder,
  unknownProduct,
  type Values,
} from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { reading } from '../hindered.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
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
      const { order, problems: orderProblems } = orderOf(io, make, options, plan, values);
      if (hasErrors(orderProblems)) {
        refuse(orderProblems);
        return;
      }
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

function orderOf(
  io: Io,
  make: readonly string[],
  options: Options,
  plan: Plan,
  values: Values,
): { readonly order: Order; readonly problems: readonly Problem[] } {
  const known = productNames(plan, values);
  const given = make.map((text) => quantityOf(text, known, plan, values));
  const file = options.make;
  const read =
    file === undefined
      ? { order: [], problems: [] }
      : readOrder(
          file,
          reading(file, () => readFileSync(resolve(io.folder, file), 'utf8')),
          plan,
          values,
        );
  const order = combined([...read.order, ...given], known);
  if (order.length === 0 && !hasErrors(read.problems)) {
    throw new Hindrance(
      file === undefined
        ? `Nothing to make was given.\n  Add product=quantity, such as "${[...known.values()][0] ?? 'wrist medium'}=12", or --make with a table.`
        : `${file} asks for nothing to be made.\n  Give it the headings product and quantity, and rows with a quantity above 0.`,
      2,
    );
  }
  const [tooMany] = order.filter(({ quantity }) => quantity > largestQuantity);
  if (tooMany !== undefined)
    throw new Hindrance(
      `${tooMany.quantity} of ${tooMany.product} are more than ${largestQuantity} of one product.\n  Plan them in batches.`,
      2,
    );
  return { order, problems: read.problems };
}

function quantityOf(
  text: string,
  known: ReadonlyMap<string, string>,
  plan: Plan,
  values: Values,
): { readonly product: string; readonly quantity: number } {
  const [, name = '', count = ''] = /^(.*)=\s*(\d+)\s*$/.exec(text) ?? [];
  const product = name.trim();
  if (product === '')
    throw new Hindrance(
      `“${text}” is not a product and a whole number.\n  Write it as "wrist medium=24".`,
      2,
    );
  if (!known.has(product.toLowerCase())) {
    const { message, mend } = unknownProduct(product, plan, values);
    throw new Hindrance(`${message}\n  ${mend}`, 2);
  }
  return { product, quantity: Number(count) };
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
