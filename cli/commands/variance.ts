import type { Command } from 'commander';
import { hasErrors, stockBook, varianceReport } from '../../engine/index.ts';
import { readClosed, readSource } from '../bookFolder.ts';
import type { Io, Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showHow } from '../terminal/showHow.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { showVariance } from '../terminal/showVariance.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly from?: string;
  readonly to?: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addVariance(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('variance')
    .argument('<book>', 'folder of the book')
    .description('how far cost was from plan, and why: prices, use, wages, bench time, overhead')
    .option('--from <date>', 'first day (default: first day of the period of the last one)')
    .option('--to <date>', 'last day (default: the last day that something happened)')
    .option('--json', 'print all figures as JSON')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit variance my-book
  $ sennit variance my-book --from 2026-10-01 --to 2026-10-31
  $ sennit variance my-book --json

Planned is what the book says now: prices of materials.csv, what pieces take by Cuts and Parts, minutes of
work.csv, the wage and the overhead of a month. Positive is above plan, which is unfavourable. What happened
is read as by sennit stock. See docs/stock.md.

In JSON, money is in the book's currency. totals has price, usage, lost, wageRate, efficiency and total;
overhead has months, planned, absorbed, paid, spending, idle and notAbsorbed (paid and spending are null
without overheads_paid.csv). materials, use and products have one entry a row, with the same names.`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      stepsOf(io, source, options)('Pricing the book and valuing its stock');
      const { problems, plan, values, ledger } = stockBook(
        source,
        {
          ...(options.from === undefined ? {} : { from: options.from }),
          ...(options.to === undefined ? {} : { to: options.to }),
        },
        readClosed(io, folder),
      );
      const style = styleFor(io, options.plain);
      if (plan === undefined || values === undefined || ledger === undefined || hasErrors(problems)) {
        outcome.exitCode = problems.some(({ where }) => where.file.startsWith('--')) ? 2 : 1;
        if (options.json) io.out(json({ problems }));
        else io.err(showProblems(problems, style));
        return;
      }
      const report = varianceReport(plan, values, problems);
      if (options.json) {
        io.out(json(report));
        return;
      }
      const how = showHow(io, style, plan.settings, folder);
      io.out(showVariance(report, how));
    });
}
