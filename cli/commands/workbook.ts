import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import writeFileAtomic from 'write-file-atomic';
import { hasErrors, type Problem, priceBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { writing } from '../hindered.ts';
import type { Io, Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { json } from '../terminal/json.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';
import { version } from '../version.ts';

interface Options {
  readonly out?: string;
  readonly replace?: true;
  readonly json?: true;
  readonly plain?: true;
}

export function addWorkbook(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('workbook')
    .argument('<book>', 'folder of the book')
    .description('write the priced book as a workbook (.xlsx) in which every formula is live')
    .option('--out <file>', "where to write; default is the book's name with .xlsx, in this folder")
    .option('--replace', 'replace the file if it is there already')
    .option('--json', 'print what was written as JSON')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit workbook my-book
  $ sennit workbook my-book --out prices-november.xlsx --replace

The workbook opens in any spreadsheet program that reads .xlsx. Change wage, margin, cord prices,
lengths or cords in it, and every cost and price follows.`,
    )
    .action(async (folder: string, options: Options) => {
      const source = readSource(io, folder);
      const given = options.out ?? `${basename(resolve(io.folder, folder))}.xlsx`;
      const date = today(io);
      const file = outputFile(io, given, options.replace === true, {
        ending: '.xlsx',
        example: 'prices.xlsx',
        lost: 'Figures changed in it would be lost.',
      });
      const { problems, plan, values } = priceBook(source);
      const refuse = (found: readonly Problem[]): void => {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems: found }));
        else io.err(`${showProblems(found, styleFor(io, options.plain))}\nNothing was written.\n`);
      };
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        refuse(problems);
        return;
      }
      // Loaded here and not at the start: no other command needs them.
      const { checkedByReference } = await import('../../engine/reference.ts');
      const { workbook } = await import('../../engine/export/workbook.ts');
      // What is handed over comes from the reference engine, and only where the quick path says the same.
      const reference = checkedByReference(plan, values);
      if (reference.problems.length > 0) {
        refuse([...reference.problems, ...problems]);
        return;
      }
      const bytes = await workbook(plan, reference.values, { date, version });
      writing(given, () => writeFileAtomic.sync(file, Buffer.from(bytes)));
      if (options.json) {
        io.out(
          json({
            file: given,
            bytes: bytes.length,
            sheets: plan.sheets.map((sheet) => sheet.title),
            problems,
          }),
        );
        return;
      }
      io.out(
        `Wrote ${given}: ${plan.sheets.length} sheets, every formula live.\nBegin on the sheet Start; yellow cells are yours to change.\n`,
      );
    });
}
