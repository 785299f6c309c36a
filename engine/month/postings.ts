import { type BookValue, sameKey, type Table } from '../book/book.ts';
import { type Problem, problem } from '../book/problems/problem.ts';

/** What a journal line does, whatever the account of it is called; `templates/postings.csv` tells them in words. */
export const postings = [
  'channel_receivable',
  'sales',
  'sales_returns',
  'tax_collected',
  'fees',
  'materials',
  'tax_paid',
  'suppliers',
  'finished_goods',
  'labour_absorbed',
  'overhead_absorbed',
  'cost_of_sales',
  'abnormal_waste',
  'samples_and_gifts',
  'own_use',
  'other_use',
  'stock_difference',
] as const;

export type Posting = (typeof postings)[number];

export function isPosting(word: string): word is Posting {
  return postings.some((each) => each === word);
}

/** A posting as people read it: `cost_of_sales` is “cost of sales”. */
export function postingWords(posting: string): string {
  return posting.replaceAll('_', ' ');
}

/** The posting that words of a sheet stand for. */
export function postingOfWords(words: string): string {
  return words.replaceAll(' ', '_');
}

/** Postings that each channel may have an account of its own for. */
const byChannel: readonly Posting[] = [
  'channel_receivable',
  'sales',
  'sales_returns',
  'tax_collected',
  'fees',
];

/** The account that a posting goes to. */
export interface Account {
  readonly posting: Posting;
  /** Blank where the account is that of all channels. */
  readonly channel: string;
  readonly code: string;
  readonly name: string;
  readonly meaning: string;
  /** The maker has said so in `accounts.csv`. */
  readonly isMapped: boolean;
}

/** Looks up accounts: the channel's own, else that of all channels, else a stand-in by the posting's own name. */
export class Accounts {
  readonly #mapped = new Map<string, { readonly code: string; readonly name: string }>();
  readonly #words: ReadonlyMap<string, { readonly name: string; readonly meaning: string }>;
  readonly problems: readonly Problem[];

  /**
   * @param accounts the book's table `accounts`, read
   * @param words the shipped table of postings, read
   */
  constructor(accounts: Table | undefined, words: Table) {
    const told: Problem[] = [];
    const text = (table: Table, column: string, row: number): string =>
      textOf(table.columns.get(column)?.[row] ?? null);
    this.#words = new Map(
      Array.from({ length: words.rowCount }, (_, row) => [
        text(words, 'posting', row),
        { name: text(words, 'name', row), meaning: text(words, 'meaning', row) },
      ]),
    );
    for (let row = 0; row < (accounts?.rowCount ?? 0); row += 1) {
      if (accounts === undefined) break;
      const posting = text(accounts, 'posting', row);
      const channel = text(accounts, 'channel', row);
      const where = accounts.places[row] ?? { file: 'accounts.csv' };
      if (posting === '' || text(accounts, 'account', row) === '') continue;
      if (channel !== '' && !byChannel.some((each) => each === posting)) {
        told.push(
          problem(
            'cell-clash',
            { ...where, column: 'channel' },
            `${posting} has one account for all channels.`,
            {
              found: channel,
              accepted: `a channel for ${byChannel.join(', ')}`,
              mend: 'Leave the channel blank.',
            },
          ),
        );
        continue;
      }
      const key = keyOf(posting, channel);
      if (this.#mapped.has(key)) {
        told.push(
          problem(
            'key-twice',
            where,
            `${[posting, channel].filter((each) => each !== '').join(', ')} has an account already.`,
            {
              found: text(accounts, 'account', row),
              accepted: 'one account for each posting, or for each posting and channel',
              mend: 'Remove one of the two rows.',
            },
          ),
        );
        continue;
      }
      this.#mapped.set(key, { code: text(accounts, 'account', row), name: text(accounts, 'name', row) });
    }
    this.problems = told;
  }

  of(posting: Posting, channel = ''): Account {
    const own = channel === '' ? undefined : this.#mapped.get(keyOf(posting, channel));
    const found = own ?? this.#mapped.get(keyOf(posting, ''));
    const words = this.#words.get(posting);
    return {
      posting,
      channel: own === undefined ? '' : channel,
      code: found?.code ?? postingWords(posting),
      name: found === undefined || found.name === '' ? (words?.name ?? posting) : found.name,
      meaning: words?.meaning ?? '',
      isMapped: found !== undefined,
    };
  }
}

function keyOf(posting: string, channel: string): string {
  return `${posting}|${sameKey(channel)}`;
}

function textOf(value: BookValue): string {
  return value === null ? '' : String(value);
}
