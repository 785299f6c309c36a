import type { Command } from 'commander';
import { solveBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import type { Io, Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { showSolve } from '../terminal/showSolve.ts';
import { addSweptOptions, priceRule, type SweptOptions, tellSwept } from './swept.ts';

interface Options extends SweptOptions {
  readonly vary: string;
  readonly until: string;
  readonly from?: string;
  readonly to?: string;
}

export function addSolve(program: Command, io: Io, outcome: Outcome): void {
  const command = program
    .command('solve')
    .argument('<book>', 'folder of the book')
    .description('the figure of an input at which a result becomes what is wanted')
    .requiredOption(
      '--vary <input>',
      'the input, such as wage; of several cells (cord) the change in per cents',
    )
    .requiredOption('--until <goal>', 'what is wanted, such as "margin of fob short at stall = 40 %"')
    .option('--from <figure>', 'look no lower than this figure or change (-30 %)')
    .option('--to <figure>', 'look no higher than this figure or change (+50 %)');
  addSweptOptions(command)
    .addHelpText(
      'after',
      `
Examples:
  $ sennit solve my-book --vary wage --until "margin of fob short at stall = 40 %"
  $ sennit solve my-book --vary cord --until "asking price of fob short at stall = its floor"
  $ sennit solve my-book --vary "asking price of fob short at stall" --until "month’s profit = 800"
  $ sennit solve my-book --vary wage --until "asking price of fob short at stall = 11" --prices follow --to 40

Every answer within the range is listed. Where prices are rounded, a result may jump over what is wanted: then both
sides of the jump are told. Each answer is put back into the book, and the book priced anew. Inputs are those of
sennit whatif, results those of sennit sensitivity.

In JSON, each of answers has how (exact, between, step), its points (text, at, alteration, result, wanted) and checks
(result, wanted, residual, findings); least and greatest are how far the result comes under and over what is wanted.`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      stepsOf(io, source, options, true)(`Looking for the answer along ${options.vary}`);
      const swept = solveBook(source, {
        vary: options.vary,
        until: options.until,
        ...(options.from === undefined ? {} : { from: options.from }),
        ...(options.to === undefined ? {} : { to: options.to }),
        prices: priceRule(options.prices),
      });
      tellSwept(swept, { io, outcome, folder, options }, showSolve);
    });
}
