import { Command, CommanderError, Help } from 'commander';
import { commandName } from './commandName.ts';
import { addBreakEven } from './commands/breakeven.ts';
import { addCards } from './commands/cards.ts';
import { addCheck } from './commands/check.ts';
import { addCompletion } from './commands/completion.ts';
import { addCord } from './commands/cord.ts';
import { addCut } from './commands/cut.ts';
import { addFit } from './commands/fit.ts';
import { addMix } from './commands/mix.ts';
import { addMonth } from './commands/month.ts';
import { addNew } from './commands/new.ts';
import { addPrice } from './commands/price.ts';
import { addPriceList } from './commands/pricelist.ts';
import { addReport } from './commands/report.ts';
import { addRisk } from './commands/risk.ts';
import { addSensitivity } from './commands/sensitivity.ts';
import { addSolve } from './commands/solve.ts';
import { addStock } from './commands/stock.ts';
import { addTakein } from './commands/takein.ts';
import { addVariance } from './commands/variance.ts';
import { addWhatIf } from './commands/whatif.ts';
import { addWorkbook } from './commands/workbook.ts';
import { type ExitCode, Hindrance, type Io, type Outcome } from './io.ts';
import { keptByNpm } from './keptByNpm.ts';
import { exitCodesText, manualEnd } from './manual.ts';
import { wiping } from './steps.ts';
import { version } from './version.ts';

/** As a maker comes to them: the same groups and order as in the README. */
const groups = [
  ['A book and its prices', [addNew, addCheck, addPrice, addPriceList, addBreakEven, addMix]],
  ['Cord and the bench', [addCord, addFit, addCut, addCards]],
  ['What if', [addWhatIf, addSensitivity, addSolve, addRisk, addReport]],
  ['Workbooks, stock and the month', [addWorkbook, addTakein, addStock, addVariance, addMonth]],
  ['The terminal', [addCompletion]],
] as const;

/** The program with all its commands, for running it and for what is made from it; what they print goes to `io`, how they end to `outcome`. */
export function programOf(io: Io, outcome: Outcome): Command {
  const typed = commandName(io);
  const program = new Command('sennit')
    .description(
      'Cost and price knotted-cord goods: from a book of plain tables to prices and a live workbook.',
    )
    .version(version, '--version', 'show the version')
    .helpOption('-h, --help', 'show help')
    .helpCommand('help [command]', 'show help for a command')
    .showSuggestionAfterError(true)
    .showHelpAfterError(`(${typed} --help shows what there is)`)
    .exitOverride()
    .configureOutput({
      // The examples of a help are there to be typed, here.
      writeOut: (text) => io.out(text.replaceAll('\n  $ sennit ', `\n  $ ${typed} `)),
      writeErr: io.err,
      getOutHelpWidth: () => io.columns ?? 80,
      getErrHelpWidth: () => io.columns ?? 80,
    })
    .configureHelp({
      // That an option may be given several times and stands nowhere yet is no default to tell.
      optionDescription: (option) => new Help().optionDescription(option).replace(' (default: [])', ''),
    })
    .addHelpText(
      'after',
      `
Start here:
  $ sennit new my-book            a starter book to change into your own
  $ sennit price my-book          what to ask for every piece in every channel
  $ sennit workbook my-book       the same as a workbook with live formulas

Exit codes: ${exitCodesText}.`,
    );
  for (const [heading, commands] of groups) {
    program.commandsGroup(`${heading}:`);
    for (const add of commands) add(program, io, outcome);
  }
  for (const command of program.commands) command.addHelpText('after', manualEnd(command.name()));
  return program;
}

/**
 * Runs the program in-process.
 *
 * @param args the command line after the program's name
 * @returns the exit code: 0 done, 1 the book has errors (or a file is in the way), 2 wrong command line
 */
export async function run(args: readonly string[], given: Io): Promise<ExitCode> {
  const { io, wipe } = wiping(given);
  const outcome: Outcome = { exitCode: 0 };
  try {
    const program = programOf(io, outcome);
    const kept = keptByNpm(program, args, io);
    if (kept !== undefined)
      throw new Hindrance(
        `npm kept --${kept} for itself, as no -- stands before the command, so nothing was done.\n  Write -- after sennit: npm run -s sennit -- ${args[0]} … --${kept} …`,
        2,
      );
    await program.parseAsync([...args], { from: 'user' });
    return outcome.exitCode;
  } catch (error) {
    if (error instanceof CommanderError && error.code === 'commander.excessArguments')
      io.err('A name with a blank in it stands in straight quotation marks, as in "my book".\n');
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (error instanceof Hindrance) {
      io.err(`${error.message}\n`);
      return error.exitCode;
    }
    throw error;
  } finally {
    wipe();
  }
}
