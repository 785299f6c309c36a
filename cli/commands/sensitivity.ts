import type { Command } from 'commander';
import { sensitivityBook, sweepTableBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { showSensitivity, tellSensitivity } from '../terminal/showSensitivity.ts';
import { showSweepTable, tellSweepTable } from '../terminal/showSweepTable.ts';
import { addSweptOptions, priceRule, type SweptOptions, several, tellSwept } from './swept.ts';

interface Options extends SweptOptions {
  readonly of: readonly string[];
  readonly range?: string;
  readonly inputs?: readonly string[];
  readonly across?: string;
  readonly down?: string;
  readonly all?: true;
}

export function addSensitivity(program: Command, io: Io, outcome: Outcome): void {
  const command = program
    .command('sensitivity')
    .argument('<book>', 'folder of the book')
    .description('which inputs move a result most; or a table of results over one input or two')
    .option(
      '--of <result>',
      'the result, such as "margin of fob short at stall"; the month’s profit where there is one',
      several,
      [] as readonly string[],
    )
    .option(
      '--range <share>',
      'how far every input goes down and up, such as "10 %"; ranges.csv is left out then',
    )
    .option('--inputs <names...>', 'only these inputs')
    .option('--across <steps>', 'a table instead: an input and its range, such as "wage = 18..30 by 2"')
    .option('--down <steps>', 'a second input for the table, such as "cord = -10 %..+20 %"')
    .option('--all', 'every input that matters, not the first dozen');
  addSweptOptions(command)
    .addHelpText(
      'after',
      `
Examples:
  $ sennit sensitivity my-book --of "margin of fob short at stall"
  $ sennit sensitivity my-book --of "unit cost of fob short" --range "5 %" --inputs wage cord "minutes of bar"
  $ sennit sensitivity my-book --of "margin of fob short at stall" --across "wage = 18..30 by 2"
  $ sennit sensitivity my-book --across "wage = 18..30" --down "cord = -10 %..+20 % by 5 %"

Each input goes down and up by itself, the others stay: by 10 %, or as far as the book’s ranges.csv says. A result is
margin, contribution, profit, asking price, floor, target or "contribution per hour" of <product> at <channel>;
unit cost, labour, materials or minutes of <product>; "month’s profit" and others of the month where the book has
sales_mix.csv; any other by its sheet: prices[fob short, stall].markup, costs[fob short].cords. A table takes several
--of, and a result that names no channel, or no product, stands for all of them. Inputs are those of sennit whatif.

In JSON, the ranking has result, prices, range, today, lines (input, cells, today, from, low and high with text and
result, effect) and still; a table has across, down and results (result, today, rows).`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      const how = { io, outcome, folder, options };
      const prices = priceRule(options.prices);
      const step = stepsOf(io, source, options, true);
      if (options.across !== undefined) {
        const question = {
          of: options.of,
          prices,
          across: options.across,
          ...(options.down === undefined ? {} : { down: options.down }),
        };
        step('Pricing the book along the table');
        tellSwept(sweepTableBook(source, question), how, options.plain ? tellSweepTable : showSweepTable);
        return;
      }
      if (options.down !== undefined)
        throw new Hindrance('--down needs --across as well.\n  With one input, give it as --across.', 2);
      const [of, second] = options.of;
      if (second !== undefined)
        throw new Hindrance(
          'Inputs are ranked for one result at a time.\n  Give one --of, or --across for a table.',
          2,
        );
      step('Pricing the book with each input lower and higher');
      const swept = sensitivityBook(source, {
        ...(of === undefined ? {} : { of }),
        ...(options.range === undefined ? {} : { range: options.range }),
        inputs: options.inputs ?? [],
        prices,
      });
      tellSwept(swept, how, (report, shown) =>
        (options.plain ? tellSensitivity : showSensitivity)(report, options.all === true, shown),
      );
    });
}
