import type { Command } from 'commander';
import {
  type BreakEvenReport,
  breakEvenBook,
  breakEvenReport,
  hasErrors,
  mendName,
} from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showBreakEven, tellBreakEven } from '../terminal/showBreakEven.ts';
import { showHow } from '../terminal/showHow.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly product?: string;
  readonly channel?: string;
  readonly profit?: string;
  readonly profitTax?: string;
  readonly overhead?: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addBreakEven(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('breakeven')
    .argument('<book>', 'folder of the book')
    .description("how many pieces pay the month's overhead, and how many earn a wanted profit")
    .option('--product <name>', 'one product')
    .option('--channel <name>', 'one channel')
    .option(
      '--profit <amount>',
      'profit wanted in a month, after profit tax (default: wanted_profit_per_month of book.yaml)',
    )
    .option('--profit-tax <percent>', 'tax on profit (default: profit_tax_percent of book.yaml)')
    .option(
      '--overhead <amount>',
      'overhead of a month (default: the sum of overheads.csv); asking prices stay as they are',
    )
    .option('--json', 'print all figures as JSON, unrounded')
    .option('--plain', 'in sentences, without columns, marks or colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit breakeven my-book
  $ sennit breakeven my-book --product "wrist medium" --channel stall
  $ sennit breakeven my-book --profit 16000 --profit-tax 40
  $ sennit breakeven my-book --overhead 950 --json

Contribution is the net price less fees, postage, materials and labour by the hour: labour counts as paid
only for what is made. Each product and channel is shown as if nothing else were sold; the expected sales of
sales_mix.csv are shown together, in the proportions that they are expected in. See docs/mix.md.

In JSON, money is in the book's currency and shares are ratios: 0.4 is 40 %. There are overheadPerMonth,
wantedProfitPerMonth, profitTaxRatio, wantedProfitBeforeTax and benchHoursPerMonth. mix (null without a
sales_mix.csv) has pieces, takings, contribution, contributionRatio, profit, profitTax, profitAfterTax,
benchHours, benchHoursLeft, marginOfSafety, marginOfSafetyRatio and rows; its breakEven and
forWantedProfit have share, pieces, takings and benchHours. Each of pairs has product, channel, netEach,
contributionEach, contributionRatio, and breakEven and forWantedProfit with pieces, piecesWhole,
takings, benchHours and withinHours. Null means that no number of pieces does it.`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      stepsOf(io, source, options)('Pricing the book');
      const { problems, plan, values } = breakEvenBook(source, {
        ...(options.profit === undefined ? {} : { profit: options.profit }),
        ...(options.profitTax === undefined ? {} : { profitTax: options.profitTax }),
        ...(options.overhead === undefined ? {} : { overhead: options.overhead }),
      });
      const style = styleFor(io, options.plain);
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        outcome.exitCode = problems.some(({ where }) => where.file.startsWith('--')) ? 2 : 1;
        if (options.json) io.out(json({ problems }));
        else io.err(showProblems(problems, style));
        return;
      }
      const report = chosen(breakEvenReport(plan, values, problems), options);
      if (options.json) {
        io.out(json(report));
        return;
      }
      const how = {
        ...showHow(io, style, plan.settings, folder),
        isChosen: options.product !== undefined || options.channel !== undefined,
      };
      io.out(options.plain ? tellBreakEven(report, how) : showBreakEven(report, how));
    });
}

/** The report with the pairs that were asked for, capitals aside. */
function chosen(report: BreakEvenReport, { product, channel }: Options): BreakEvenReport {
  const is = (name: string, wanted: string | undefined): boolean =>
    wanted === undefined || name.toLowerCase() === wanted.toLowerCase();
  for (const [word, wanted] of [
    ['product', product],
    ['channel', channel],
  ] as const) {
    const names = [...new Set(report.pairs.map((pair) => pair[word]))];
    if (names.some((name) => is(name, wanted))) continue;
    throw new Hindrance(
      `There is no ${word} “${wanted}” in this book.\n  ${mendName(wanted ?? '', names)}`,
      2,
    );
  }
  return {
    ...report,
    pairs: report.pairs.filter((pair) => is(pair.product, product) && is(pair.channel, channel)),
  };
}
