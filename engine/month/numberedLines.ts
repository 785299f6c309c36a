import { type BookValue, sameKey } from '../book/book.ts';
import type { JournalLine } from './journalLines.ts';
import type { PurchaseFact } from './monthFacts.ts';
import { type Accounts, postingWords } from './postings.ts';

/** A row of a table of the month, by column. */
export type Row = Readonly<Record<string, BookValue>>;

/** Purchases that stand on one invoice. */
export interface Invoice {
  readonly invoice: string;
  readonly first: PurchaseFact;
  readonly lines: readonly PurchaseFact[];
}

/** Purchases by invoice, what went back apart; those without a number by day and supplier. */
export function invoicesOf(purchases: readonly PurchaseFact[]): Invoice[] {
  const groups = new Map<string, PurchaseFact[]>();
  for (const each of purchases) {
    const day = each.invoice === '' ? each.day : '';
    const key = [sameKey(each.supplier), sameKey(each.invoice), day, each.quantity < 0].join('|');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [each]);
    else group.push(each);
  }
  return [...groups.values()].flatMap((lines, at) => {
    const [first] = lines;
    return first === undefined ? [] : [{ invoice: `invoice ${at + 1}`, first, lines }];
  });
}

/** Lines of the sheet Tax, in the order in which they are asked for. */
export class TaxLines {
  readonly #lines = new Map<string, Row>();

  line(side: string, where: string, rate: number | null): string {
    const key = [side, sameKey(where), rate].join('|');
    const known = this.#lines.get(key);
    if (known !== undefined) return String(known.line);
    const line = `tax ${this.#lines.size + 1}`;
    this.#lines.set(key, { line, side, where, rate });
    return line;
  }

  rows(): Row[] {
    return [...this.#lines.values()];
  }
}

/** Lines of the sheet Accounts: an account for every posting of the journal, and for a channel that has its own. */
export class AccountLines {
  readonly #accounts: Accounts;
  readonly #lines = new Map<string, Row>();

  constructor(accounts: Accounts) {
    this.#accounts = accounts;
  }

  line({ posting, channel }: JournalLine): string {
    const found = this.#accounts.of(posting, channel);
    const key = [found.posting, sameKey(found.channel)].join('|');
    const known = this.#lines.get(key);
    if (known !== undefined) return String(known.account);
    const account = `account ${this.#lines.size + 1}`;
    const { meaning, code, name, isMapped } = found;
    this.#lines.set(key, {
      account,
      posting: postingWords(found.posting),
      channel: found.channel,
      meaning,
      code,
      name,
      mapped: isMapped ? 'yes' : 'no',
    });
    return account;
  }

  rows(): Row[] {
    return [...this.#lines.values()];
  }
}
