import { resolve } from 'node:path';
import {
  combined,
  decodeText,
  hasErrors,
  largestQuantity,
  linesToMake,
  type Order,
  type Plan,
  type Priced,
  priceBook,
  productNames,
  type Source,
  unknownProduct,
  type Values,
} from '../engine/index.ts';
import { readRegularFile } from './files/regularFile.ts';
import { longestFile } from './files/textFiles.ts';
import { Hindrance, type Io } from './io.ts';

/** The table of a book that says what to make; a file given with --make is read in its place. */
export const makeTable = 'make.csv';

/** A priced book and what is to be made of it; nothing where neither table nor command line says. */
export interface Batch {
  readonly priced: Priced;
  readonly source: Source;
  readonly order: Order;
}

/**
 * Prices a book and reads what to make: from the table given with --make and what is named on the command line,
 * together; from the book's own make.csv where nothing is given.
 *
 * @param named such as `wrist medium=24`
 */
export function readBatch(io: Io, book: Source, named: readonly string[], file: string | undefined): Batch {
  const source =
    file === undefined
      ? book
      : {
          ...book,
          book: new Map([
            ...book.book,
            [makeTable, decodeText(readRegularFile(file, resolve(io.folder, file), longestFile))],
          ]),
        };
  const result = priceBook(source);
  const priced =
    file === undefined
      ? result
      : {
          ...result,
          problems: result.problems.map((each) =>
            each.where.file === makeTable ? { ...each, where: { ...each.where, file } } : each,
          ),
        };
  const { plan, values, problems } = priced;
  if (plan === undefined || values === undefined || hasErrors(problems)) return { priced, source, order: [] };
  const known = productNames(plan, values);
  const torn = tornName(named, known);
  if (torn !== undefined)
    throw new Hindrance(
      `“${torn}” came as several words, as it stands in no straight quotation marks.\n  Write "${torn}".`,
      2,
    );
  const given = named.map((text) => quantityOf(text, known, plan, values));
  const isFromTable = file !== undefined || named.length === 0;
  const lines = isFromTable && priced.book !== undefined ? linesToMake(priced.book) : [];
  const order = combined([...lines, ...given], known);
  if (order.length === 0 && file === undefined && named.length > 0)
    throw new Hindrance('Nothing is to be made of any product.\n  Give a quantity above 0.', 2);
  if (order.length === 0 && file !== undefined) {
    throw new Hindrance(
      `${file} asks for nothing to be made.\n  Give it the headings product and quantity, and rows with a quantity above 0.`,
      2,
    );
  }
  const [tooMany] = order.filter(({ quantity }) => quantity > largestQuantity);
  if (tooMany !== undefined)
    throw new Hindrance(
      `${tooMany.quantity} of ${tooMany.product} are more than ${largestQuantity} of one product.\n  Plan them in batches.`,
      2,
    );
  return { priced, source, order };
}

/** A product with a blank in its name, and its quantity, that was taken apart: `wrist` and `medium=24`. */
function tornName(named: readonly string[], known: ReadonlyMap<string, string>): string | undefined {
  for (let from = 0; from < named.length; from += 1)
    for (let to = from + 2; to <= Math.min(named.length, from + 6); to += 1) {
      const whole = named
        .slice(from, to)
        .join(' ')
        .replace(/[“”„‟«»]/g, '');
      if (named.slice(from, to - 1).some((each) => each.includes('='))) continue;
      const [, name = ''] = /^(.*?)\s*=\s*\d+$/.exec(whole) ?? [];
      if (known.has(name.toLowerCase())) return whole;
    }
  return undefined;
}

function quantityOf(
  text: string,
  known: ReadonlyMap<string, string>,
  plan: Plan,
  values: Values,
): { readonly product: string; readonly quantity: number } {
  const [, name = '', count = ''] = /^(.*)=\s*(\d+)\s*$/.exec(text) ?? [];
  const product = name.trim();
  if (product === '') {
    const meant =
      known.get(text.replace(/=.*$/, '').trim().toLowerCase()) ?? [...known.values()][0] ?? 'strap';
    throw new Hindrance(`“${text}” is not a product and a whole number.\n  Write it as "${meant}=24".`, 2);
  }
  if (!known.has(product.toLowerCase())) {
    const { message, mend } = unknownProduct(product, plan, values);
    throw new Hindrance(`${message}\n  ${mend}`, 2);
  }
  return { product, quantity: Number(count) };
}

/** Runs a search that ends early on Ctrl-C and when its time is over. */
export async function stoppable<T>(
  io: Io,
  seconds: number,
  search: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  const controller = new AbortController();
  const stop = (): void => controller.abort();
  const timer = setTimeout(stop, seconds * 1000);
  const restore = io.onInterrupt?.(stop);
  try {
    return await search(controller.signal);
  } finally {
    clearTimeout(timer);
    restore?.();
  }
}

export type CuttingProgress = (state: { readonly material: string }) => void;

/** What a search tells while it runs; nothing with --json or --plain. */
export function cuttingProgress(
  { progress }: Io,
  how: { readonly json?: true; readonly plain?: true },
): CuttingProgress {
  if (progress === undefined || how.json || how.plain) return () => {};
  return ({ material }) => progress(`Cutting ${material} (Ctrl-C shows the best plan so far)`);
}

export function secondsOf(text: string): number {
  const seconds = Number(text);
  // A timer cannot wait longer than 24 days; a day is more than anyone will.
  if (text.trim() === '' || !(seconds >= 0) || seconds > 86_400)
    throw new Hindrance(`--time “${text}” is not a number of seconds up to a day.\n  Write it as 30.`, 2);
  return seconds;
}
