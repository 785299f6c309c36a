import {
  hasErrors,
  listChannels,
  mendName,
  type Plan,
  type PriceList,
  type Problem,
  priceBook,
  priceListCsv,
  priceListPage,
  priceListReport,
  type Settings,
  type Values,
} from '../engine/index.ts';
import { type Answer, answer, refused } from './answer.ts';
import { type BookTexts, sourceOf } from './bookTexts.ts';
import { asked, dayProblems } from './question.ts';

/** Which price list. */
export interface PriceListChoice {
  /** A channel of the book, by its key or its name. */
  readonly channel: string;
  /** The day from which the prices hold, as ISO 8601 writes it: `2026-12-01`. */
  readonly validFrom: string;
}

/** Which price list, and as what. */
export interface PriceListFile extends PriceListChoice {
  /** RFC 4180 text, a page to print, or a workbook. */
  readonly format: 'csv' | 'html' | 'xlsx';
}

/**
 * The price list of a channel for customers, or the line sheet for shops where the channel has a wholesale discount. No
 * cost of the book is in it.
 */
export function listPrices(texts: BookTexts, choice: PriceListChoice): Answer<PriceList> {
  const { list, problems } = listOf(texts, choice);
  return list === undefined ? refused(problems) : answer(problems, () => list);
}

/** Writes such a list as a file, dated by the day from which it holds. The same texts and choice give the same bytes. */
export async function writePriceList(texts: BookTexts, choice: PriceListFile): Promise<Answer<Uint8Array>> {
  const { list, settings, problems } = listOf(texts, choice);
  if (list === undefined || settings === undefined) return refused(problems);
  const bytes = await drawn(list, settings, choice);
  return answer(problems, () => bytes);
}

async function drawn(
  list: PriceList,
  settings: Settings,
  { format, validFrom }: PriceListFile,
): Promise<Uint8Array> {
  if (format === 'csv') return new TextEncoder().encode(priceListCsv(list, settings));
  if (format === 'html') return new TextEncoder().encode(priceListPage(list, settings));
  // Loaded here and not at the start: no other format needs it.
  const { priceListWorkbook } = await import('../engine/export/priceList/priceListWorkbook.ts');
  return priceListWorkbook(list, settings, validFrom);
}

function listOf(
  texts: BookTexts,
  { channel, validFrom }: PriceListChoice,
): { readonly list?: PriceList; readonly settings?: Settings; readonly problems: readonly Problem[] } {
  const { plan, values, problems: found } = priceBook(sourceOf(texts));
  const problems = [...found, ...dayProblems('validFrom', validFrom)];
  if (plan === undefined || values === undefined) return { problems };
  const key = channelNamed(channel, plan, values);
  if (typeof key !== 'string') return { problems: [...problems, key] };
  if (hasErrors(problems)) return { problems };
  return { list: priceListReport(plan, values, key, validFrom), settings: plan.settings, problems };
}

function channelNamed(given: string, plan: Plan, values: Values): string | Problem {
  const channels = listChannels(plan, values);
  const wanted = given.trim().toLowerCase();
  const found =
    channels.find(({ channel }) => channel.toLowerCase() === wanted) ??
    channels.find(({ name }) => name.toLowerCase() === wanted);
  if (found !== undefined) return found.channel;
  const known = channels.map(({ channel }) => channel);
  return asked('reference-unknown', 'channel', given, {
    message: `There is no channel “${given}” in this book.`,
    accepted: known.join(', '),
    mend: mendName(given, known),
  });
}
