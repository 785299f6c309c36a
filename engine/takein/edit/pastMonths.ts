import type { Book } from '../../book/book.ts';
import { dayText } from '../../book/measures/day.ts';
import { type Place, type Problem, problem } from '../../book/problems/problem.ts';
import { recordFile } from '../fields.ts';

/** Lines of `book.yaml` that months are reckoned with as they stand now, whenever the month was (docs/month.md). */
const undatedLines = ['wage_per_hour', 'on_costs_percent', 'tax_percent'];
/** Tables of the same kind: fees, and what goes into a piece. */
const undatedFiles = ['fees.csv', 'parts.csv', 'ends.csv', 'work.csv', 'weaves.csv', 'samples.csv'];
/** Columns of products.csv that are only about its price or its words. */
const priceColumns = [
  'name',
  'family',
  'size',
  'listed',
  'description',
  'wanted_margin_percent',
  'minimum_price',
];

/** A change of the book, as far as it matters here. */
export interface BookChange {
  readonly file: string;
  readonly column: string;
  readonly heading: string;
  readonly where: Place;
}

/**
 * Says which changes also change months that are over and not closed, where the book has any.
 *
 * @param today ISO date
 * @param closed months that are closed, such as 2026-10
 */
export function pastMonths(
  changes: readonly BookChange[],
  book: Book,
  today: string,
  closed: readonly string[],
): Problem[] {
  const undated = changes.filter(
    ({ file, column }) =>
      (file === recordFile && undatedLines.includes(column)) ||
      undatedFiles.includes(file) ||
      (file === 'products.csv' && !priceColumns.includes(column)),
  );
  const [first] = undated;
  const open = openMonths(book, today).filter((month) => !closed.includes(month));
  const last = open.at(-1);
  if (first === undefined || last === undefined) return [];
  const words = [...new Set(undated.map(({ heading, where }) => heading || `a row of ${where.sheet}`))];
  const what =
    words.length > 3 ? `${words.slice(0, 3).join(', ')} and ${words.length - 3} more` : words.join(', ');
  const months = open.length > 3 ? `${open[0]} to ${last}` : open.join(', ');
  return [
    problem(
      'workbook-left',
      first.where,
      `${what}: this also changes the figures of months that are over and not closed (${months}).`,
      {
        severity: 'watch',
        mend: `Close them first, if they should stay: sennit month <book> ${open[0]} --close.`,
      },
    ),
  ];
}

/** Months with sales or pieces made that are over. */
function openMonths({ tables }: Book, today: string): string[] {
  const months = new Set<string>();
  for (const name of ['sales', 'made'])
    for (const day of tables.get(name)?.columns.get('date') ?? [])
      if (typeof day === 'number') months.add(dayText(day).slice(0, 7));
  return [...months].filter((month) => month < today.slice(0, 7)).sort();
}
