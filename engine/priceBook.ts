import type { Book, BookFiles, BookValue, Table } from './book/book.ts';
import { hasErrors, type Problem } from './book/problems/problem.ts';
import { type BookSchema, readBook } from './book/readBook.ts';
import { readField } from './book/readField.ts';
import { calculate } from './calc/compiled/calculate.ts';
import { findings } from './calc/findings.ts';
import type { Values } from './calc/values.ts';
import { bookSchema } from './sheets/bookSchema.ts';
import { compile } from './sheets/compile.ts';
import type { SheetDefinition } from './sheets/definition.ts';
import type { Plan } from './sheets/plan.ts';
import { assemble, readSheetFiles } from './sheets/readDefinitions.ts';
import type { SheetFile } from './sheets/readSheetFile.ts';
import { withAskingPrices } from './whatif/prices.ts';
import { readScenarios } from './whatif/scenarios.ts';
import { readRanges } from './whatif/sweeps/ranges.ts';

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
  /** Figures to take for once instead of those of `book.yaml`, as text in the book's own notation. */
  readonly figures?: readonly OtherFigure[];
  /** Faults in tables that no price depends on are errors too. */
  readonly strict?: boolean;
}

/** A figure of `book.yaml` that a command was given. */
export interface OtherFigure {
  readonly id: string;
  readonly text: string;
  /** Where it was said, for a problem: `--profit`. */
  readonly said: string;
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
  const { plan, values } = priced;
  if (plan === undefined || values === undefined) return priced;
  const { problems } = readScenarios(withAskingPrices(plan, values));
  const ranges = readRanges(plan);
  // No price depends on a range, and a wage may have gone beyond its own: whoever asks for the risk is stopped by it.
  const uncertain = ranges.problems.map((each): Problem => ({ ...each, severity: 'watch' }));
  return { ...priced, problems: [...priced.problems, ...problems, ...uncertain] };
}

/** The first half of the path: reads book and sheets. */
export function openBook(source: Source): OpenedBook {
  const own = readSheetFiles(new Map([...source.book].filter(([file]) => file.startsWith('sheets/'))));
  const { definitions, problems: sheetProblems } = assemble([...source.sheets, ...own]);
  const schema = bookSchema(definitions);
  const read = readBook(source.book, schema, source.tables);
  const told = source.strict === true ? read.problems : withoutApart(read.problems, schema);
  const problems = [...told, ...sheetProblems];
  const book = {
    ...read.book,
    record: withFigures(read.book, source.figures ?? [], schema, problems),
    tables: new Map([...read.book.tables, ...(source.made ?? [])]),
  };
  return hasErrors(sheetProblems) ? { problems, definitions } : { problems, definitions, book };
}

/** A slip in what happened need not stop a price: sales of a product that is made no more, for one. */
function withoutApart(problems: readonly Problem[], { tables }: BookSchema): Problem[] {
  const apart = new Set(tables.flatMap((each) => (each.apart === true ? [`${each.table}.csv`] : [])));
  return problems.map((each) => (apart.has(each.where.file) ? { ...each, severity: 'watch' } : each));
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

/** The record with figures that a command was given; each is read as that of the file is. */
function withFigures(
  { record, settings }: Book,
  figures: readonly OtherFigure[],
  schema: BookSchema,
  problems: Problem[],
): ReadonlyMap<string, BookValue> {
  const changed = new Map(record);
  for (const { id, text, said } of figures) {
    const field = schema.record.find((each) => each.id === id);
    if (field === undefined) throw new Error(`book.yaml has no figure ${id}`);
    changed.set(id, readField(text, field, settings, { file: said }, problems).value);
  }
  return changed;
}
