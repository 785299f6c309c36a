import {
  type Book,
  type CellValue,
  hasErrors,
  isFailure,
  type NumberKind,
  type Priced,
  type PriceReport,
  type Problem,
  priceBook as price,
  priceReport,
  stockProblems,
  unlikelyFigures,
  type WhatIfReport,
  whatIfBook,
} from '../engine/index.ts';
import { type Answer, answer, refused } from './answer.ts';
import { type BookTexts, sourceOf } from './bookTexts.ts';

/**
 * Reads a book's tables and settings, and checks them.
 *
 * @returns the book with every figure in the units of its sheets; lengths in `settings.lengthUnit`, cord in
 * `settings.cordUnit`, weights in `settings.weightUnit`, per cents as ratios (0.4 is 40 %), days as spreadsheets count them
 */
export function readBook(texts: BookTexts): Answer<Book> {
  const { book, problems } = price(sourceOf(texts));
  return book === undefined ? refused(problems) : answer(problems, () => book);
}

/**
 * Everything that is wrong with a book or worth a look, tables of what happened (purchases, sales, stocktakes) included.
 * Closed months are not compared: that is for `sennit check`, which sees their files.
 */
export function checkBook(texts: BookTexts): readonly Problem[] {
  const priced = price({ ...sourceOf(texts), strict: true });
  if (hasErrors(priced.problems)) return priced.problems;
  return [...priced.problems, ...unlikelyFigures(priced), ...stockProblems(priced)];
}

/**
 * Costs every product of a book and prices it in every channel.
 *
 * @returns what `sennit price --json` prints: money in the book's currency, unrounded where no sheet rounds it, and shares
 * as ratios
 */
export function priceBook(texts: BookTexts): Answer<PriceReport> {
  return calculated(texts, ({ plan, values, problems }) => priceReport(plan, values, problems));
}

/** A sheet of a calculated book. */
export interface CalculatedSheet {
  readonly id: string;
  readonly title: string;
  /** The question that the sheet answers. */
  readonly answers: string;
  readonly rowCount: number;
  readonly columns: readonly CalculatedColumn[];
}

/** A column of a sheet, with a value for each row. */
export interface CalculatedColumn {
  readonly id: string;
  /** As it stands on the sheet, with the unit of the book. */
  readonly heading: string;
  readonly kind: NumberKind;
  /** Whether a maker's figure or a formula; only the former may be changed in a workbook. */
  readonly computed: boolean;
  readonly values: readonly CellValue[];
}

/**
 * Calculates every sheet of a book, those of its own folder `sheets/` included: the cells that its workbook shows.
 *
 * @returns the sheets in the order of the workbook; per cents are ratios, a blank cell is null
 */
export function calculateBook(texts: BookTexts): Answer<readonly CalculatedSheet[]> {
  return calculated(texts, ({ plan, values }) =>
    plan.sheets.map(({ id, title, answers, rowCount, columns }) => ({
      id,
      title,
      answers,
      rowCount,
      columns: columns.map((column) => ({
        id: column.id,
        heading: column.heading,
        kind: column.kind,
        computed: column.inputs === undefined,
        values: Array.from({ length: rowCount }, (_, row) => {
          const value = values.get(id, column.id, row);
          return isFailure(value) ? null : value;
        }),
      })),
    })),
  );
}

/** What is to be changed in a book; without changes and scenarios, every scenario of the book. */
export interface WhatIfChanges {
  /** Changes that hold together, in words: `cord +12 %`, `wage = 24.50`, `materials[slate cord].pack_price +3.00`. */
  readonly changes?: readonly string[];
  /** Scenarios of the book by name, side by side; `dearer cord + new wage` lays one upon the other. */
  readonly scenarios?: readonly string[];
  /** Leaves out changes that begin later than this month or day, such as `2027-03`. */
  readonly on?: string;
}

/** Prices a book as it stands and with other figures: with today's asking prices, and with those that keep the margins. */
export function whatIf(
  texts: BookTexts,
  { changes = [], scenarios = [], on = '' }: WhatIfChanges,
): Answer<WhatIfReport> {
  const { report, problems } = whatIfBook(sourceOf(texts), { changes, scenarios, on });
  const told = problems.map(asAsked);
  return report === undefined ? refused(told) : answer(told, () => report);
}

/** The question stands in a call here, not on a command line. */
function asAsked(found: Problem): Problem {
  if (found.where.file !== 'command line') return found;
  return {
    ...found,
    where: { file: 'question' },
    mend: found.mend.replace(/--scenario ("[^"]*")/g, 'scenarios: [$1]'),
  };
}

/** The whole path, and what is made of its end; nothing where an error stands in the way. */
export function calculated<Result>(
  texts: BookTexts,
  use: (priced: Required<Omit<Priced, 'book'>>) => Result,
): Answer<Result> {
  const { plan, values, problems } = price(sourceOf(texts));
  if (plan === undefined || values === undefined) return refused(problems);
  return answer(problems, () => use({ plan, values, problems }));
}
