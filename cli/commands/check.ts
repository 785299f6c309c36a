import type { Command } from 'commander';
import {
  closedMonthProblems,
  hasErrors,
  priceBook,
  stockProblems,
  unlikelyFigures,
} from '../../engine/index.ts';
import { readMonthSource } from '../bookFolder.ts';
import type { Io, Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { count, showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';

interface Options {
  readonly json?: true;
  readonly plain?: true;
}

/** Sheets without which something of what a piece costs is left out. */
const partsOfCost = ['overheads', 'fees', 'work', 'parts'];

export function addCheck(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('check')
    .argument('<book>', 'folder of the book')
    .description('read the whole book and say everything that is wrong with it')
    .option('--json', 'print the problems as JSON')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit check my-book
  $ sennit check my-book --json`,
    )
    .action((folder: string, options: Options) => {
      const source = readMonthSource(io, folder);
      const step = stepsOf(io, source.source, options);
      step('Pricing the book');
      const priced = priceBook({ ...source.source, strict: true });
      const { plan } = priced;
      step('Going through stock and closed months');
      const read = [
        ...priced.problems,
        ...(hasErrors(priced.problems)
          ? []
          : [...unlikelyFigures(priced), ...stockProblems(priced, source.closed, today(io))]),
      ];
      // Prices stand whatever has changed in a closed month, so that is something to look at.
      const problems = hasErrors(read) ? read : [...read, ...closedMonthProblems(source)];
      if (hasErrors(problems)) outcome.exitCode = 1;
      if (options.json) {
        io.out(json({ wellFormed: !hasErrors(problems), problems }));
        return;
      }
      const sizes = ['products', 'materials', 'channels'].map((id) =>
        count(plan?.sheets.find((sheet) => sheet.id === id)?.rowCount ?? 0, id.slice(0, -1)),
      );
      if (!hasErrors(priced.problems))
        io.out(`The book can be priced: ${sizes.filter((each) => each !== '').join(', ')}.\n`);
      // Other tables may well be blank for good: nothing is amiss without another currency or a scenario.
      const empty = (plan?.sheets ?? [])
        .filter(({ id, rowCount }) => rowCount === 0 && partsOfCost.includes(id))
        .map((sheet) => sheet.title.toLowerCase());
      if (empty.length > 0 && !hasErrors(problems))
        io.out(`Blank as yet, so that prices count nothing for it: ${empty.join(', ')}.\n`);
      const text = showProblems(problems, styleFor(io, options.plain));
      if (text !== '') io.out(text);
    });
}
