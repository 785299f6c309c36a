import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import {
  hasErrors,
  listChannels,
  listedAlike,
  listedUnderFloor,
  mendName,
  type PriceList,
  priceBook,
  priceListCsv,
  priceListPage,
  priceListReport,
  type Settings,
} from '../../engine/index.ts';
import { readSource } from '../bookFolder.ts';
import { writeAllWhole } from '../files/wholeFile.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { outputFile } from '../outputFile.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { count, showProblems } from '../terminal/showProblems.ts';
import { styleFor } from '../terminal/style.ts';
import { today } from '../today.ts';

interface Options {
  readonly channel?: string;
  readonly validFrom?: string;
  readonly as?: string;
  readonly out?: string;
  readonly replace?: true;
  readonly json?: true;
  readonly plain?: true;
}

const formats = ['html', 'xlsx', 'csv'] as const;
type Format = (typeof formats)[number];

export function addPriceList(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('pricelist')
    .argument('<book>', 'folder of the book')
    .description('write price lists for customers and line sheets for shops, without any cost in them')
    .option('--channel <name>', 'the list of this channel; without it, one file for each channel')
    .option('--valid-from <date>', 'the day from which the prices hold, such as 2026-12-01; default is today')
    .option('--as <format>', 'html (a page to print), xlsx or csv; default is what --out ends in, or html')
    .option('--out <file>', "where to write; default is the book's name, -prices- and the channel's")
    .option('--replace', 'replace files that are there already')
    .option('--json', 'print the lists as JSON, and write no file')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit pricelist my-book
  $ sennit pricelist my-book --channel wholesale --valid-from 2026-12-01 --out line-sheet.html
  $ sennit pricelist my-book --channel stall --as xlsx --replace
  $ sennit pricelist my-book --channel wholesale --json > line-sheet.json

A channel with a wholesale discount gets a line sheet: list price, trade price, and quantity prices by
price_breaks.csv. Any other gets a price list. What customers read comes from products.csv (name, description,
family, size; “listed: no” leaves a product out) and channels.csv (name, tax_name, least_order, list_note).
The page and the workbook print on A4 and Letter. More in docs/pricelist.md.

In JSON, money is in the list's currency, shares are ratios (0.2 is 20 %), and lengths end in Mm.`,
    )
    .action(async (folder: string, options: Options) => {
      if (options.json && (options.out !== undefined || options.replace || options.as !== undefined))
        throw new Hindrance(
          '--json writes no file, so there is none to name.\n  Leave out --as, --out and --replace, or --json.',
          2,
        );
      const format = formatOf(options);
      const date = today(io);
      const from = options.validFrom === undefined ? date : dayOf(options.validFrom);
      const source = readSource(io, folder);
      const step = stepsOf(io, source, options);
      step('Pricing the book');
      const { problems, plan, values } = priceBook(source);
      if (plan === undefined || values === undefined || hasErrors(problems)) {
        outcome.exitCode = 1;
        if (options.json) io.out(json({ problems }));
        else io.err(`${showProblems(problems, styleFor(io, options.plain))}\nNothing was written.\n`);
        return;
      }
      const channels = chosen(options.channel, listChannels(plan, values));
      if (options.out !== undefined && channels.length > 1)
        throw new Hindrance(
          `--out names one file, and there are ${channels.length} channels: ${channels.join(', ')}.\n  Say which with --channel.`,
          2,
        );
      const lists = channels.map((channel) => priceListReport(plan, values, channel, from));
      if (lists.every(({ families }) => families.length === 0))
        throw new Hindrance('No product is on a price list: products.csv says no under listed for each.');
      if (options.json) {
        io.out(json({ lists }));
        return;
      }
      // All names before any file, so that none is left half done.
      const names = fileNames(channels);
      const files = lists.map((list, at) => {
        const given = options.out ?? `${basename(resolve(io.folder, folder))}-prices-${names[at]}.${format}`;
        const path = outputFile(io, given, options.replace === true, {
          ending: `.${format}`,
          example: `price-list.${format}`,
          lost: 'The list in it would be lost.',
        });
        return { given, path, list };
      });
      const drawn: { given: string; path: string; list: PriceList; bytes: Buffer }[] = [];
      for (const each of files) {
        step(`Writing ${each.given}`);
        drawn.push({ ...each, bytes: await draw(each.list, format, plan.settings, date) });
      }
      writeAllWhole(drawn.map(({ given, path, bytes }) => ({ shown: given, path, bytes })));
      const alike = [...new Set(drawn.flatMap(({ list }) => listedAlike(list)))];
      const under = listedUnderFloor(plan, values, channels);
      io.out(
        `${drawn.map(({ given, list }) => `Wrote ${given}: ${told(list)}.`).join('\n')}\n${under === 0 ? '' : `${count(under, 'price')} under the floor; sennit check says which.\n`}${alike.length === 0 ? '' : `Customers cannot tell apart what is called ${alike.join(', ')}: give each a name, a size or a description of its own.\n`}Local rules say how prices must stand to tax and what a list has to name; ask a licensed professional.\n`,
      );
    });
}

function told(list: PriceList): string {
  const products = list.families.flatMap((family) => family.products);
  const sizes = products.flatMap(({ prices }) => prices.flatMap((price) => price.sizes));
  const breaks =
    list.breaksFrom.length === 0 ? '' : `, with prices from ${list.breaksFrom.join(', ')} pieces`;
  return `${list.kind}, ${count(products.length, 'product')} in ${count(sizes.length, 'size')}${breaks}`;
}

async function draw(list: PriceList, format: Format, settings: Settings, date: string): Promise<Buffer> {
  if (format === 'html') return Buffer.from(priceListPage(list, settings));
  if (format === 'csv') return Buffer.from(priceListCsv(list, settings));
  // Loaded here and not at the start: the other formats do not need it.
  const { priceListWorkbook } = await import('../../engine/export/priceList/priceListWorkbook.ts');
  return Buffer.from(await priceListWorkbook(list, settings, date));
}

function formatOf({ as, out }: Options): Format {
  const named = as?.toLowerCase();
  const found = formats.find((each) =>
    named === undefined ? out?.toLowerCase().endsWith(`.${each}`) : each === named,
  );
  if (found !== undefined) return found;
  if (named === undefined && out === undefined) return 'html';
  if (named === undefined)
    throw new Hindrance(
      `“${out}” ends in none of .html, .xlsx and .csv.\n  Give a file name such as price-list.html.`,
      2,
    );
  throw new Hindrance(`--as cannot be “${as}”.\n  Accepted: ${formats.join(', ')}.`, 2);
}

/** A day of the calendar, as ISO 8601 writes it. */
function dayOf(given: string): string {
  const text = given.trim();
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : undefined;
  // The calendar turns 30 February into 2 March.
  if (day !== undefined && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text)) return text;
  throw new Hindrance(
    `--valid-from “${given}” is no day of the calendar.\n  Write year, month and day, such as 2026-12-01.`,
    2,
  );
}

/** The channel of this key or name, capitals aside; all of them where none is asked for. */
function chosen(
  given: string | undefined,
  channels: readonly { readonly channel: string; readonly name: string }[],
): readonly string[] {
  if (given === undefined) return channels.map(({ channel }) => channel);
  const wanted = given.trim().toLowerCase();
  const found =
    channels.find(({ channel }) => channel.toLowerCase() === wanted) ??
    channels.find(({ name }) => name.toLowerCase() === wanted);
  if (found !== undefined) return [found.channel];
  const known = channels.map(({ channel }) => channel);
  throw new Hindrance(`There is no channel “${given}” in this book.\n  ${mendName(given, known)}`, 2);
}

/** The channels as parts of file names: letters and digits of any script, and each name once. */
function fileNames(channels: readonly string[]): readonly string[] {
  const plain = channels.map(
    (channel, at) =>
      channel
        .toLowerCase()
        .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
        .replace(/^-|-$/g, '') || String(at + 1),
  );
  const taken = new Set<string>();
  return plain.map((name) => {
    let own = name;
    for (let again = 2; taken.has(own); again += 1) own = `${name}-${again}`;
    taken.add(own);
    return own;
  });
}
