import { resolve } from 'node:path';
import type { Command } from 'commander';
import {
  type FittedBook,
  fitBook,
  fitPicture,
  fitReport,
  hasErrors,
  priceBook,
  type WrittenCell,
  writeBack,
} from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { editTextFile } from '../editTextFile.ts';
import { writeWhole } from '../files/wholeFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { fitTitle, showFit } from '../terminal/showFit.ts';
import { showHow } from '../terminal/showHow.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly weave?: string;
  readonly without?: readonly string[];
  readonly takeUp?: true;
  readonly write?: true;
  readonly svg?: string;
  readonly replace?: true;
  readonly json?: true;
  readonly plain?: true;
}

export function addFit(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('fit')
    .argument('<book>', 'folder of the book')
    .description('find the pitch, angle or take-up of your weaves from measured samples (samples.csv)')
    .option('--weave <name>', 'only this weave')
    .option(
      '--without <sample>',
      'leave a sample out; may be given again',
      (name: string, before: readonly string[] | undefined) => [...(before ?? []), name],
    )
    .option('--take-up', 'fit the take-up itself instead of pitch or angle')
    .option('--write', 'put the fitted figures and their spread into weaves.csv; nothing else in it changes')
    .option('--svg <file>', 'draw samples and fit as a picture')
    .option('--replace', 'replace the picture if it is there already')
    .option('--json', 'print all figures as JSON, unrounded')
    .option('--plain', 'no colours and no drawing')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit fit my-book
  $ sennit fit my-book --weave bar --svg bar.svg
  $ sennit fit my-book --weave bar --without "bar 4" --write

A sample is a test piece with the cord put in, the cord left over and its woven length, one row of
samples.csv. docs/samples.md says how to measure one and what the figures mean. reading_error and
chance_of_short_percent in book.yaml set how well your tape is read and how many pieces may run short.
--write puts each figure with its spread into weaves.csv; cut lengths and costs then carry the extra.

In JSON, lengths are in millimetres (Mm) and shares are ratios: 0.04 is 4 %. Each fit has weave, parameter
(its column in weaves.csv), unit, value, standardError, low95 and high95, bookValue, spreadRatio,
predictionErrorRatio (spread_percent in weaves.csv), extraRatio, expectedOffcutRatio, samples and products.`,
    )
    .action((folder: string, options: Options) => {
      const source = readSource(io, folder);
      stepsOf(io, source, options)('Pricing the book and fitting its weaves');
      const priced = priceBook(source);
      const style = styleFor(io, options.plain);
      const fitted = fitBook(priced, {
        ...(options.weave === undefined ? {} : { weave: options.weave }),
        without: options.without ?? [],
        takeUp: options.takeUp === true,
      });
      if (fitted !== undefined) checkNames(fitted, options);
      const problems = fitted?.problems ?? priced.problems;
      const { plan, values } = priced;
      if (fitted === undefined || plan === undefined || values === undefined || hasErrors(problems)) {
        outcome.exitCode = 1;
        const nothing = options.write || options.svg !== undefined ? '\nNothing was written.\n' : '';
        if (options.json) io.out(json({ problems }));
        else io.err(`${showProblems(problems, style)}${nothing}`);
        return;
      }
      const { weaves, choice, leftOut } = fitted;
      const picture = pictureFile(io, options);
      // The picture first: a place where it cannot be written must not leave the book changed without a word.
      const drawing = fitReport(plan, values, weaves, choice, { leftOut, problems, written: [] });
      if (picture !== undefined) {
        const drawn = fitPicture(drawing, plan.settings, (fit) => fitTitle(fit, plan.settings));
        writeWhole({ shown: options.svg ?? picture, path: picture, bytes: drawn });
      }
      let written: readonly WrittenCell[] = [];
      if (options.write) {
        editTextFile(resolve(io.folder, folder), 'weaves.csv', (text) => {
          const edited = writeBack(text, source.tables.get('weaves.csv') ?? '', weaves, plan.settings);
          written = edited.cells;
          return edited.text;
        });
      }
      const report = fitReport(plan, values, weaves, choice, { leftOut, problems, written });
      if (options.json) {
        io.out(json(report));
        return;
      }
      io.out(
        showFit(report, {
          ...showHow(io, style, plan.settings, folder),
          plain: options.plain === true,
        }),
      );
      if (options.svg !== undefined) io.out(`Drawn: ${options.svg}\n`);
    });
}

/** Names on the command line that the samples do not have, and a book that has none. */
function checkNames({ samples, weaves, problems }: FittedBook, { weave, without = [] }: Options): void {
  if (samples.length === 0) {
    throw new Hindrance(
      'This book has no samples.\n  Measure a test piece and write it in samples.csv: sample, weave, woven_length, cord_in, cord_left.\n  docs/samples.md shows how; a starter book (sennit new <folder>) has a few.',
    );
  }
  const known = [...new Set(samples.map((each) => each.weave.weave))];
  if (weave !== undefined && !known.some((each) => each.toLowerCase() === weave.toLowerCase())) {
    throw new Hindrance(
      `There is no sample of a weave “${weave}” in this book.\n  Weaves with samples: ${known.join(', ')}.`,
      2,
    );
  }
  const stranger = without.find(
    (name) => !samples.some((each) => each.sample.toLowerCase() === name.toLowerCase()),
  );
  if (stranger !== undefined) {
    throw new Hindrance(
      `There is no sample “${stranger}” to leave out.\n  Samples: ${samples.map((each) => each.sample).join(', ')}.`,
      2,
    );
  }
  if (weaves.length === 0 && problems.length === 0)
    throw new Hindrance('No sample is left to fit.\n  Leave out fewer of them.', 2);
}

function pictureFile(io: Io, { svg, replace }: Options): string | undefined {
  if (svg === undefined) return undefined;
  return outputFile(io, svg, replace === true, {
    ending: '.svg',
    example: 'bar.svg',
    lost: 'The picture in it would be lost.',
    option: '--svg',
  });
}
