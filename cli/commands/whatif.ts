import type { Command } from 'commander';
import { type WhatIfReport, whatIfBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showHow } from '../terminal/showHow.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { showWhatIf, tellWhatIf } from '../terminal/showWhatIf.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly scenario: readonly string[];
  readonly on?: string;
  readonly channel?: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addWhatIf(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('whatif')
    .argument('<book>', 'folder of the book')
    .argument('[changes...]', 'what changes, such as "cord +12 %"; all of them together')
    .description(
      'price the book with other figures: margins, prices under their floor, prices that keep the margins',
    )
    .option(
      '--scenario <name>',
      'a scenario of scenarios.csv; may be given several times, or as "one + other" for both at once',
      (name: string, before: readonly string[]) => [...before, name],
      [] as readonly string[],
    )
    .option('--on <month>', 'leave out changes that begin later than this month or day, such as 2027-03')
    .option('--channel <name>', 'one channel in full: costs, margins and contribution before and after')
    .option('--json', 'print all figures as JSON, unrounded')
    .option('--plain', 'in sentences, without columns, marks or colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit whatif my-book "cord +12 %" "buckles +5 %"
  $ sennit whatif my-book "wage = 24.50" --channel stall
  $ sennit whatif my-book --scenario "dearer cord" --scenario "new wage"
  $ sennit whatif my-book --scenario "dearer cord + new wage" --on 2027-03
  $ sennit whatif my-book "materials[colour=slate].pack_price +3.00"

Without changes and --scenario, all scenarios of the book stand side by side.

A change names an input and says what happens to it: +12 % or -5 % (a share of the figure), +1.50 (an amount),
+2 points (of a per cent), = 24.50 (a new figure or word). Inputs are: wage, on-costs, overhead, tax, margin, bench
hours; cord, webbing, parts, or materials by name, colour, supplier or a word in their name (buckles); a currency
(EUR); "fees of online", "postage of online", "margin of wholesale", "minutes of bar", "waste of cord"; any other by
its sheet: materials[slate cord].pack_price, products[fob short].finished_length, fees[online, listing].percent.

In JSON, each scenario has name, changes (text, reads, from, cells), prices (product, channel, setByHand and, as
today, held and kept: unitCost, floor, asking, net, margin, contribution, profit, underFloor), month and problems.
held is with today's asking prices, kept with those that keep the margins (null where no price does).`,
    )
    .action((folder: string, changes: readonly string[], options: Options) => {
      const source = readSource(io, folder);
      stepsOf(io, source, options, true)('Pricing the book as it is and as it would be');
      const { problems, priced, report } = whatIfBook(source, {
        scenarios: options.scenario,
        changes,
        on: monthOrDay(options.on),
      });
      const style = styleFor(io, options.plain);
      if (report === undefined || priced.plan === undefined) {
        outcome.exitCode = problems.some(
          ({ where, severity }) => severity === 'error' && where.file !== 'command line',
        )
          ? 1
          : 2;
        if (options.json) io.out(json({ problems }));
        else
          io.err(
            showProblems(
              problems.filter(({ severity }) => severity === 'error'),
              style,
            ),
          );
        return;
      }
      const channel = options.channel === undefined ? undefined : channelNamed(options.channel, report);
      if (options.json) {
        io.out(json(report));
        return;
      }
      const how = showHow(io, style, priced.plan.settings, folder);
      io.out(options.plain ? tellWhatIf(report, channel, how) : showWhatIf(report, channel, how));
    });
}

function monthOrDay(given = ''): string {
  if (given === '' || /^\d{4}-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?$/.test(given)) return given;
  throw new Hindrance(`“${given}” is no month or day.\n  Write it as 2027-03 or 2027-03-15.`, 2);
}

function channelNamed(given: string, { channels }: WhatIfReport): string {
  const found = channels.find((each) => each.toLowerCase() === given.toLowerCase());
  if (found !== undefined) return found;
  throw new Hindrance(`There is no channel “${given}” in this book.\n  Channels: ${channels.join(', ')}.`, 2);
}
