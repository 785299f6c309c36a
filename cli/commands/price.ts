import type { Command } from 'commander';
import { hasErrors, type PriceReport, priceBook, priceReport } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showHow } from '../terminal/showHow.ts';
import { showChannel, showCosts, showPrices, tellPrices } from '../terminal/showPrices.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly json?: true;
  readonly plain?: true;
  readonly channel?: string;
  readonly costs?: true;
}

export function addPrice(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('price')
    .argument('<book>', 'folder of the book')
    .description('cost every product and price it in every channel')
    .option(
      '--channel <name>',
      'one channel in full: floor, target, asking price, margin, markup, contribution',
    )
    .option('--costs', 'what each product costs and weighs: materials, labour, overhead, bench minutes')
    .option('--json', 'print all figures as JSON, unrounded')
    .option('--plain', 'in sentences, without columns, marks or colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit price my-book
  $ sennit price my-book --channel stall
  $ sennit price my-book --costs
  $ sennit price my-book --json

In JSON, money is in the book's currency and shares are ratios: 0.4 is 40 %; null is not known. Every field, with its
unit, stands in docs/reference/json.md, which is made from the program.`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      stepsOf(io, source, options)('Pricing the book');
      const { problems, plan, values } = priceBook(source);
      const style = styleFor(io, options.plain);
      if (hasErrors(problems)) outcome.exitCode = 1;
      // Figures of a book with errors would be half of them zeros.
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        if (options.json) io.out(json({ problems }));
        else io.err(showProblems(problems, style));
        return;
      }
      const report = priceReport(plan, values, problems);
      const channel = options.channel === undefined ? undefined : channelNamed(options.channel, report);
      if (options.json) {
        io.out(json(report));
        return;
      }
      const how = showHow(io, style, plan.settings, folder);
      if (options.costs) io.out(showCosts(report, how));
      else if (channel !== undefined) io.out(showChannel(report, channel, how));
      else io.out(options.plain ? tellPrices(report, how) : showPrices(report, how));
    });
}

/** A channel by its name in the tables or on the sheets, capitals aside. */
function channelNamed(given: string, report: PriceReport): string {
  const wanted = given.toLowerCase();
  const found = report.channels.find(({ channel, name }) =>
    [channel, name].some((each) => each.toLowerCase() === wanted),
  );
  if (found !== undefined) return found.channel;
  const known = report.channels.map(({ channel }) => channel).join(', ');
  throw new Hindrance(`There is no channel “${given}” in this book.\n  Channels: ${known}.`, 2);
}
