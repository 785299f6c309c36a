import type { Book, BookFiles, Table } from './book/book.ts';
import { hasErrors, type Problem } from './book/problem.ts';
import { readBook } from './book/readBook.ts';
import { calculate } from './calc/compiled/calculate.ts';
import { findings } from './calc/findings.ts';
import type { Values } from './calc/values.ts';
import { bookSchema } from './sheets/bookSchema.ts';
import { compile } from './sheets/compile.ts';
import type { SheetDefinition } from './sheets/definition.ts';
import type { Plan } from './sheets/plan.ts';
import { assemble, readSheetFiles } from './sheets/readDefinitions.ts';
import type { SheetFile } from './sheets/readSheetFile.ts';
import { readRanges } from './whatif/ranges.ts';
import { readScenarios } from './whatif/scenarios.ts';

/** Everything that is needed to price a book. */
export interface Source {
  /** The book's own files by name: `book.yaml`, `materials.csv`, `sheets/tags.yaml`. */
  readonly book: BookFiles;
  /** The shipped sheets, read (by `readSheetFiles`, or at build time). */
  readonly sheets: readonly SheetFile[];
  /** The shipped tables by file name: `weaves.csv`. */
  readonly tables: BookFiles;
  /** Tables that a command made (such as a cutting plan), by name; they stand beside and before the book's own. */
  readonly made?: ReadonlyMap<string, Table>;
}

/** A calculated book; `plan` and `values` are absent where errors stand in the way. */
export interface Priced {
  readonly problems: readonly Problem[];
  /** The book as read; absent only where the sheets themselves are broken. */
  readonly book?: Book;
  readonly plan?: Plan;
  readonly values?: Values;
}

/** A book that has been read and checked but not yet calculated. */
export interface OpenedBook {
  readonly problems: readonly Problem[];
  readonly definitions: readonly SheetDefinition[];
  readonly book?: Book;
}

/**
 * The one data path: book and sheets to plan to values. Reports every problem of a stage together and stops
 * before the next where one is an error; a calculation whose checks fail is returned with its problems.
 */
export function priceBook(source: Source): Priced {
  const opened = openBook(source);
  const priced = priceOpened(opened);
  if (priced.plan === undefined) return priced;
  const { problems } = readScenarios(priced.plan);
  const ranges = readRanges(priced.plan);
  return { ...priced, problems: [...priced.problems, ...problems, ...ranges.problems] };
}

/** The first half of the path: reads book and sheets. */
export function openBook(source: Source): OpenedBook {
  const own = readSheetFiles(new Map([...source.book].filter(([file]) => file.startsWith('sheets/'))));
  const { definitions, problems: sheetProblems } = assemble([...source.sheets, ...own]);
  const read = readBook(source.book, bookSchema(definitions), source.tables);
  const book = { ...read.book, tables: new Map([...read.book.tables, ...(source.made ?? [])]) };
  const problems = [...read.problems, ...sheetProblems];
  return hasErrors(sheetProblems) ? { problems, definitions } : { problems, definitions, book };
}

/**
 * The second half: compiles and calculates.
 *
 * @param alter changes inputs of the plan, as if the book held other figures; rows that depend on them follow
 */
export function priceOpened(opened: OpenedBook, alter?: (plan: Plan) => Plan): Priced {
  const { definitions, book } = opened;
  if (book === undefined) return { problems: opened.problems };
  const { plan, problems: planProblems } = compile(definitions, book, alter);
  const problems = [...opened.problems, ...planProblems];
  if (hasErrors(problems)) return { problems, book };
  const values = calculate(plan);
  return { problems: [...problems, ...findings(plan, values)], book, plan, values };
}
