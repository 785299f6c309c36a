import type { Book, BookFiles, Table } from './book/book.ts';
import { hasErrors, type Problem } from './book/problem.ts';
import { readBook } from './book/readBook.ts';
import { calculate } from './calc/compiled/calculate.ts';
import { findings } from './calc/findings.ts';
import type { Values } from './calc/values.ts';
import { bookSchema } from './sheets/bookSchema.ts';
import { compile } from './sheets/compile.ts';
import type { Plan } from './sheets/plan.ts';
import { assemble, readSheetFiles } from './sheets/readDefinitions.ts';
import type { SheetFile } from './sheets/readSheetFile.ts';

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

/**
 * The one data path: book and sheets to plan to values. Reports every problem of a stage together and stops
 * before the next where one is an error; a calculation whose checks fail is returned with its problems.
 */
export function priceBook(source: Source): Priced {
  const own = readSheetFiles(new Map([...source.book].filter(([file]) => file.startsWith('sheets/'))));
  const { definitions, problems: sheetProblems } = assemble([...source.sheets, ...own]);
  const read = readBook(source.book, bookSchema(definitions), source.tables);
  const { problems: bookProblems } = read;
  const book = { ...read.book, tables: new Map([...read.book.tables, ...(source.made ?? [])]) };
  const problems = [...bookProblems, ...sheetProblems];
  if (hasErrors(sheetProblems)) return { problems };
  const { plan, problems: planProblems } = compile(definitions, book);
  problems.push(...planProblems);
  if (hasErrors(problems)) return { problems, book };
  const values = calculate(plan);
  return { problems: [...problems, ...findings(plan, values)], book, plan, values };
}
