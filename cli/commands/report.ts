import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import { reportBook } from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { writeWhole } from '../files/wholeFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { pageCode } from '../pageCode.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { count, showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';
import { version } from '../version.ts';

interface Options {
  readonly out?: string;
  readonly replace?: true;
  readonly json?: true;
  readonly plain?: true;
}

export function addReport(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('report')
    .argument('<book>', 'folder of the book')
    .description('write a page with charts and sliders: prices, costs, margins, scenarios, break-even')
    .option('--out <file>', "where to write; default is the book's name with -report.html, in this folder")
    .option('--replace', 'replace the file if it is there already')
    .option('--json', 'print the figures of the page as JSON, and write no page')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit report my-book
  $ sennit report my-book --out report.html --replace
  $ sennit report my-book --json > report.json

The page is one file that opens in any browser, without a network, and prints on A4. Its sliders for wage, cord
price, wanted margin and overhead price the whole book again in the page. More in docs/report.md.`,
    )
    .action(async (folder: string, options: Options) => {
      if (options.json && (options.out !== undefined || options.replace))
        throw new Hindrance(
          '--json writes no page, so there is no file to name.\n  Leave out one of them.',
          2,
        );
      const source = readSource(io, folder);
      const given = options.out ?? `${basename(resolve(io.folder, folder))}-report.html`;
      const date = today(io);
      const file = options.json
        ? ''
        : outputFile(io, given, options.replace === true, {
            ending: '.html',
            example: 'report.html',
            lost: 'The page in it would be lost.',
          });
      const step = stepsOf(io, source, options, true);
      step('Pricing the book, its scenarios and what moves it');
      const { problems, report } = reportBook(source);
      if (report === undefined) {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems }));
        else io.err(`${showProblems(problems, styleFor(io, options.plain))}\nNothing was written.\n`);
        return;
      }
      if (options.json) {
        const { live: _, settings: __, ...figures } = report;
        io.out(json(figures));
        return;
      }
      // Loaded here and not at the start: no other command draws charts.
      const { reportPage } = await import('../../engine/export/report/reportPage.ts');
      step('Drawing the page');
      const page = reportPage(report, { date, version }, pageCode());
      writeWhole({ shown: given, path: file, bytes: page });
      const under = report.prices.products.flatMap(({ channels }) =>
        channels.filter((each) => each.underFloor),
      );
      io.out(
        `Wrote ${given}: ${count(report.prices.products.length, 'product')} in ${count(report.prices.channels.length, 'channel')}${under.length === 0 ? '' : `; ${count(under.length, 'price')} under the floor`}.\nOpen it in a browser; it needs no network.\n`,
      );
    });
}
