import type { Command } from 'commander';
import { riskBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { showRisk, tellRisk } from '../terminal/showRisk.ts';
import { addSweptOptions, priceRule, type SweptOptions, several, tellSwept } from './swept.ts';

/** From here on the draws of the demo book take longer than a second. */
const manyDraws = 5000;

interface Options extends SweptOptions {
  readonly of: readonly string[];
  readonly draws: string;
  readonly seed: string;
  readonly miss?: string;
}

const [fewest, most] = [100, 200_000];

export function addRisk(program: Command, io: Io, outcome: Outcome): void {
  const command = program
    .command('risk')
    .argument('<book>', 'folder of the book')
    .description('how likely a margin is missed where inputs lie within the ranges of ranges.csv')
    .option(
      '--of <result>',
      'a result, such as "margin of fob short at stall"; may be given several times. All margins and the month’s profit where absent',
      several,
      [] as readonly string[],
    )
    .option(
      '--miss <figure>',
      'what counts as missed, such as "24 %"; each price’s own wanted margin where absent',
    )
    .option('--draws <number>', `how many cases are drawn, ${fewest} to ${most}`, '10000')
    .option('--seed <number>', 'a whole number; the same seed draws the same cases', '1');
  addSweptOptions(command)
    .addHelpText(
      'after',
      `
Examples:
  $ sennit risk my-book
  $ sennit risk my-book --of "margin of fob short" --miss "24 %"
  $ sennit risk my-book --of "month’s profit" --miss 500 --draws 50000

A row of ranges.csv names an input in the words of sennit whatif, a shape and how far it may be off:

  input,shape,low,likely,high,spread_percent
  wage,triangular,19,21,26,
  cord,lognormal,-8 %,,+20 %,
  minutes of bar,normal,,,,12
  cord of bar,samples,,,,

One draw moves all cells of an input together; different rows are independent of each other.

In JSON, each of lines has result, wanted, today, missed, missedError, failed, mean, spread, percentiles (p5 to p95)
and drivers (input, correlation, share).`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      const draws = wholeNumber(options.draws, '--draws', fewest, most);
      stepsOf(io, source, options, draws >= manyDraws)(`Drawing ${draws} times`);
      const swept = riskBook(source, {
        of: options.of,
        draws,
        seed: wholeNumber(options.seed, '--seed', 0, 2 ** 31 - 1),
        ...(options.miss === undefined ? {} : { miss: options.miss }),
        prices: priceRule(options.prices),
      });
      tellSwept(swept, { io, outcome, folder, options }, options.plain ? tellRisk : showRisk);
    });
}

function wholeNumber(given: string, option: string, least: number, greatest: number): number {
  const number = Number(given);
  if (/^\d+$/.test(given) && number >= least && number <= greatest) return number;
  throw new Hindrance(
    `“${given}” does not suit ${option}.\n  Give a whole number from ${least} to ${greatest}.`,
    2,
  );
}
