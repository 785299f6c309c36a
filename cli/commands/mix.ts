import type { Command } from 'commander';
import { hasErrors, type MixOptions, mixBook, parseNumber, priceBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { solverFromFile } from '../solverFile.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showHow } from '../terminal/showHow.ts';
import { showMix, tellMix } from '../terminal/showMix.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly hours?: string;
  readonly stock?: true;
  readonly all?: true;
  readonly json?: true;
  readonly plain?: true;
}

export function addMix(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('mix')
    .argument('<book>', 'folder of the book')
    .description('what to make of the bench hours of a month, so that it contributes most')
    .option(
      '--hours <hours>',
      'bench hours there are (default: bench_hours_per_month of book.yaml); prices stay as they are',
    )
    .option('--stock', 'only of what lies in stock, for every material that has a row in stock.csv')
    .option('--all', 'every product in every channel, not only the rows of sales_mix.csv')
    .option('--json', 'print the mix as JSON, unrounded')
    .option('--plain', 'in sentences, without columns, marks or colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit mix my-book
  $ sennit mix my-book --hours 96
  $ sennit mix my-book --stock
  $ sennit mix my-book --all --json

sales_mix.csv says what may sell: at_least is promised, more than at_most would not be bought. Contribution
counts labour as paid by the hour, so what one more bench hour is worth comes on top of its wage. See
docs/mix.md.

Exit code 1 where the book has errors, or where promises take more than there is.

In JSON, money is in the book's currency. Each of rows has product, channel, contributionEach,
benchHoursEach, expected, atLeast, atMost, best (in fractions), bestWhole, reducedWorth (below nothing: by
so much a piece would have to contribute more), worthOfOneMoreSold and worthOfOneLessPromised. Each of
limits has kind, name, unit, available, taken, takenWhole, worthEach (its dual price) and worthOfOneMore
(what a whole unit more adds). best, bestWhole and expected have contribution, profit (after overhead,
before tax) and benchHours; bestWhole also proven. Null means none.`,
    )
    .action(async (folder: string, options: Options) => {
      const source = readSource(io, folder);
      // Every product in every channel is a search of seconds in a small book too.
      const step = stepsOf(io, source, options, options.all === true);
      step('Pricing the book');
      const { problems, plan, values } = priceBook(source);
      const style = styleFor(io, options.plain);
      const refuse = (found: typeof problems): void => {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems: found }));
        else io.err(showProblems(found, style));
      };
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        refuse(problems);
        return;
      }
      const hours =
        options.hours === undefined ? undefined : parseNumber(options.hours, plan.settings.decimal);
      if (options.hours !== undefined && (hours === undefined || hours < 0))
        throw new Hindrance(`--hours “${options.hours}” is not a number of hours.\n  Write it as 96.`, 2);
      const asked: MixOptions = {
        ...(hours === undefined ? {} : { hours }),
        stock: options.stock === true,
        all: options.all === true,
      };
      step('Looking for the best mix');
      const { report, problems: found } = mixBook(plan, values, await solverFromFile(), asked);
      if (report === undefined) {
        refuse(found);
        return;
      }
      if (options.json) {
        io.out(json({ ...report, problems }));
        return;
      }
      const how = { ...showHow(io, style, plan.settings, folder), withStock: options.stock === true };
      io.out(options.plain ? tellMix(report, how) : showMix(report, how));
    });
}
