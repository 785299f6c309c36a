import type { BookValue, Table } from './book/book.ts';
import { hasErrors, type Problem } from './book/problems/problem.ts';
import { readField } from './book/readField.ts';
import type { FieldSchema } from './book/schema.ts';
import { openBook, type Priced, priceBook, priceOpened, type Source } from './priceBook.ts';
import { bookSchema } from './sheets/bookSchema.ts';
import { assemble } from './sheets/readDefinitions.ts';
import { heldPrices } from './whatif/prices.ts';

/** Figures of the break-even to take for once instead of the book's, as text in the book's own notation. */
export interface BreakEvenQuestion {
  /** Profit wanted in a month, after profit tax. */
  readonly profit?: string;
  /** Tax on profit, in per cent. */
  readonly profitTax?: string;
  /** Overhead of a month. Prices stay as they are; only what they have to pay for changes. */
  readonly overhead?: string;
}

/**
 * Prices a book with other figures for its break-even. They are inputs of the same sheets: nothing is worked out
 * here. A figure that cannot be read is a problem whose place is its option, such as `--profit`.
 */
export function breakEvenBook(source: Source, question: BreakEvenQuestion): Priced {
  const figures = [
    { id: 'wanted_profit_per_month', text: question.profit, said: '--profit' },
    { id: 'profit_tax_percent', text: question.profitTax, said: '--profit-tax' },
  ].flatMap(({ text, ...each }) => (text === undefined ? [] : [{ ...each, text }]));
  const asked = { ...source, figures };
  const priced = priceBook(asked);
  const { book, plan, values, problems } = priced;
  if (question.overhead === undefined || book === undefined) return priced;
  const found: Problem[] = [];
  const { value } = readField(
    question.overhead,
    overheadField(source),
    book.settings,
    { file: '--overhead' },
    found,
  );
  if (found.length > 0 || plan === undefined || values === undefined || hasErrors(problems))
    return { ...priced, problems: [...problems, ...found] };
  const overheads = overheadTable(value, book.tables.get('overheads'));
  // Scenarios and ranges have been read with the book: they may name an overhead that stands in for none now.
  const opened = openBook({ ...asked, made: new Map([...(source.made ?? []), ['overheads', overheads]]) });
  // A price that is reckoned from its cost would move with the overhead: it is held, as if set by hand.
  return priceOpened(opened, (each) => heldPrices(each, values));
}

function overheadField(source: Source): FieldSchema {
  const { tables } = bookSchema(assemble(source.sheets).definitions);
  const field = tables
    .find(({ table }) => table === 'overheads')
    ?.fields.find(({ id }) => id === 'per_month');
  if (field === undefined) throw new Error('The sheets have no overheads.per_month');
  return { ...field, min: 0 };
}

/** One overhead in place of all. */
function overheadTable(perMonth: BookValue, before: Table | undefined): Table {
  const names = new Set([...(before?.columns.keys() ?? []), 'overhead', 'per_month']);
  return {
    name: 'overheads',
    rowCount: 1,
    columns: new Map(
      [...names].map((id) => [
        id,
        [id === 'overhead' ? 'all together' : id === 'per_month' ? perMonth : null],
      ]),
    ),
    places: [{ file: '--overhead' }],
  };
}
