import type { Command } from 'commander';
import type { PriceRule, Swept } from '../../engine/index.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { json } from '../terminal/json.ts';
import { type ShowHow, showHow } from '../terminal/showHow.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';

/** Options that all questions of this sort share. */
export interface SweptOptions {
  readonly prices: string;
  readonly json?: true;
  readonly plain?: true;
}

export function addSweptOptions(command: Command): Command {
  return command
    .option(
      '--prices <rule>',
      'held: today’s asking prices stay; follow: those that are not set by hand go with their cost',
      'held',
    )
    .option('--json', 'print all figures as JSON, unrounded')
    .option('--plain', 'in sentences, without columns, marks or colours');
}

/** Collects an option that may be given several times. */
export function several(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

export function priceRule(given: string): PriceRule {
  if (given === 'held' || given === 'follow') return given;
  throw new Hindrance(`“${given}” is no rule for prices.\n  Write --prices held or --prices follow.`, 2);
}

/** Prints a report, or what stands in its way: 1 where that is in the book, 2 where it is in the question. */
export function tellSwept<Report>(
  { problems, priced, report }: Swept<Report>,
  how: {
    readonly io: Io;
    readonly outcome: Outcome;
    readonly folder: string;
    readonly options: SweptOptions;
  },
  show: (report: Report, how: ShowHow) => string,
): void {
  const { io, outcome, folder, options } = how;
  const style = styleFor(io, options.plain);
  if (report === undefined || priced.plan === undefined) {
    const errors = problems.filter(({ severity }) => severity === 'error');
    outcome.exitCode = errors.some(({ where }) => where.file !== 'command line') ? 1 : 2;
    if (options.json) io.out(json({ problems: errors }));
    else io.err(showProblems(errors, style));
    return;
  }
  if (options.json) {
    io.out(json(report));
    return;
  }
  const { settings } = priced.plan;
  io.out(show(report, showHow(io, style, settings, folder)));
}
