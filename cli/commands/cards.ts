import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import {
  calculate,
  cardPage,
  cardReport,
  hasErrors,
  mendName,
  type Plan,
  type Priced,
  type Problem,
  priceBook,
  productFamilies,
  productNames,
  type Values,
  withBatches,
} from '../../engine/index.ts';
import { readBatch } from '../batch.ts';
import { readSource } from '../bookFolder.ts';
import { writeWhole } from '../files/wholeFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { count, showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';
import { version } from '../version.ts';

interface Options {
  readonly make?: string;
  readonly out?: string;
  readonly replace?: true;
  readonly json?: true;
  readonly plain?: true;
}

export function addCards(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('cards')
    .argument('<book>', 'folder of the book')
    .argument('[wanted...]', 'products, families, or product=quantity; everything if not given')
    .description('write bench cards to print: what to cut, how to set up, and what to mind')
    .option('--make <file>', 'cards for what a table asks to be made, with the columns product and quantity')
    .option('--out <file>', "where to write; default is the book's name with -cards.html, in this folder")
    .option('--replace', 'replace the file if it is there already')
    .option('--json', 'print the figures of the cards as JSON, and write no page')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit cards my-book
  $ sennit cards my-book "Wrist straps" "lead long" --out straps.html
  $ sennit cards my-book "wrist medium=24" --out saturday.html --replace
  $ sennit cards my-book --make market.csv --json > cards.json

The page is one file that opens in any browser, without a network; print it at 100 %, one product a page.
With a quantity, a card says how many to make and what that batch takes; without one, it is the batch size
of products.csv. More in docs/cards.md.

In JSON, lengths end in Mm; minutes are bench minutes, those per length for one length unit of the book.`,
    )
    .action((folder: string, wanted: readonly string[], options: Options) => {
      if (options.json && (options.out !== undefined || options.replace))
        throw new Hindrance(
          '--json writes no page, so there is no file to name.\n  Leave out one of them.',
          2,
        );
      const source = readSource(io, folder);
      const given = options.out ?? `${basename(resolve(io.folder, folder))}-cards.html`;
      const date = today(io);
      const file = options.json
        ? ''
        : outputFile(io, given, options.replace === true, {
            ending: '.html',
            example: 'cards.html',
            lost: 'The page in it would be lost.',
          });
      const step = stepsOf(io, source, options);
      step('Pricing the book');
      const first = priceBook(source);
      const refuse = (found: readonly Problem[]): void => {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems: found }));
        else io.err(`${showProblems(found, styleFor(io, options.plain))}\nNothing was written.\n`);
      };
      const quantities = wanted.filter((text) => text.includes('=') && !isName(text, first));
      const names = wanted.filter((text) => !quantities.includes(text));
      // The book's own make.csv is for cutting; cards are for the whole line unless an order is named.
      const isOrdered = quantities.length > 0 || options.make !== undefined;
      const { priced, order } = isOrdered
        ? readBatch(io, source, quantities, options.make)
        : { priced: first, order: [] };
      const { problems, plan, values } = priced;
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        refuse(problems);
        return;
      }
      const asked = order.map(({ product }) => product);
      const named = names.flatMap((name) => productsCalled(name, plan, values));
      if (quantities.length > 0 && asked.length === 0)
        throw new Hindrance('Nothing is to be made of any product.\n  Give a quantity above 0.', 2);
      const whole = asked.length === 0 && named.length === 0;
      step('Working out the cards');
      const batched = withBatches(plan, order);
      const report = cardReport(
        batched,
        order.length === 0 ? values : calculate(batched),
        whole ? {} : { products: [...asked, ...named], asked },
        problems,
      );
      if (options.json) {
        io.out(json(report));
        return;
      }
      step(`Drawing ${count(report.cards.length, 'card')}`);
      const page = cardPage(report, plan.settings, { date, version });
      writeWhole({ shown: given, path: file, bytes: page });
      io.out(
        `Wrote ${given}: ${count(report.cards.length, 'card')}, one product a page.\nOpen it in a browser and print it at 100 %.\n`,
      );
    });
}

function isName(text: string, { plan, values }: Priced): boolean {
  if (plan === undefined || values === undefined) return false;
  const name = text.trim().toLowerCase();
  return productNames(plan, values).has(name) || productFamilies(plan, values).has(name);
}

/** Keys of the product of this name, or of all products of this family. */
function productsCalled(text: string, plan: Plan, values: Values): readonly string[] {
  const name = text.trim().toLowerCase();
  const product = productNames(plan, values).get(name);
  if (product !== undefined) return [product];
  const families = productFamilies(plan, values);
  const family = families.get(name);
  if (family !== undefined) return family.products;
  const known = [
    ...productNames(plan, values).values(),
    ...[...families.values()].map((each) => each.family),
  ];
  throw new Hindrance(
    `There is no product and no family “${text.trim()}” in this book.\n  ${mendName(text.trim(), known)}`,
    2,
  );
}
