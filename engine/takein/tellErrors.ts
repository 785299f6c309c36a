import type { Book } from '../book/book.ts';
import { parseCsv } from '../book/files/csvFile.ts';
import type { Place, Problem } from '../book/problems/problem.ts';
import type { CellChange, Comparison } from './compare/comparison.ts';
import { keyOf } from './compare/sameValue.ts';
import type { EditedFiles } from './edit/editFiles.ts';
import { shownValue } from './shownValue.ts';
import { tellUnknown } from './tellUnknown.ts';

/** The book that would come about, and how it came about. */
export interface ResultingBook {
  readonly comparison: Comparison;
  readonly changes: readonly CellChange[];
  readonly edited: EditedFiles;
  readonly book: Book | undefined;
  /** Errors of the book with these changes alone. */
  readonly errorsOf: (changes: readonly CellChange[]) => readonly Problem[];
}

/** A book of ten thousand products is priced in seconds; so many times it may be priced to find the cause of an error. */
const mostTries = 12;

/**
 * Errors of the book that would come about, told of the cells of the workbook that make them. What is told of a cell
 * or of its row already is not told again: the book was priced without what that cell says.
 */
export function tellErrors(errors: readonly Problem[], result: ResultingBook): Problem[] {
  const { comparison, edited } = result;
  const placeOf = placesIn(result);
  const faulty = [...comparison.problems, ...edited.problems].map(({ where }) => where);
  const told = new Set(faulty.map(cellId));
  const toldRows = new Set(faulty.map(rowId));
  const unknown = new Map<string, Problem>();
  const causes = new Map<CellChange, Problem[]>();
  const problems: Problem[] = [];
  for (const error of errors) {
    const where = placeOf(error.where);
    if (where !== undefined && told.has(cellId(where))) continue;
    if (error.code === 'reference-unknown') {
      const key = keyOf([error.found]);
      if (comparison.refusedNames.has(key)) continue;
      unknown.set(key, unknown.get(key) ?? { ...error, where: where ?? error.where });
      continue;
    }
    const isCalculated = error.code === 'check-failed' || error.code === 'calculation-failed';
    if (isCalculated) {
      if (where !== undefined && toldRows.has(rowId(where))) continue;
      const own = result.changes.filter((each) => where !== undefined && rowId(each.where) === rowId(where));
      const [cause] = own.length === 1 ? own : own.length > 1 ? [] : causesOf(error, result);
      if (cause !== undefined) {
        causes.set(cause, [...(causes.get(cause) ?? []), error]);
        continue;
      }
    }
    problems.push(
      where === undefined
        ? error
        : { ...error, where, message: withLines(error.message, error.where, placeOf) },
    );
  }
  for (const [cause, all] of causes) problems.push(fromCause(cause, all, comparison.book));
  return [...problems, ...tellUnknown([...unknown.values()], comparison, result.book, placeOf)];
}

function cellId({ sheet, cell }: Place): string {
  return `${sheet}!${cell}`;
}

function rowId({ sheet, cell, row }: Place): string {
  return `${sheet}!${cell?.replace(/^[A-Z]+/, '') ?? row}`;
}

/** Where in the workbook the cells and rows of the resulting book's files stand. */
function placesIn({ comparison, edited }: ResultingBook): (place: Place) => Place | undefined {
  const { places } = comparison;
  const known = new Map<string, readonly number[]>();
  const numbersOf = (file: string): readonly number[] => {
    const numbers =
      known.get(file) ?? parseCsv(file, edited.files.get(file) ?? '').rows.map(({ row }) => row);
    known.set(file, numbers);
    return numbers;
  };
  return ({ file, row, column }) => {
    const rows = edited.files.has(file) ? edited.rows.get(file) : undefined;
    if (row === undefined || rows === undefined) return places.find(file, row, column);
    const from = rows[numbersOf(file).indexOf(row)];
    if (from === undefined) return undefined;
    if (typeof from === 'number') return places.find(file, from, column);
    return 'line' in from ? places.cell(from.sheet, from.line, file, column) : from.where;
  };
}

/** Rows of the file that a message names, by their lines in the workbook. */
function withLines(message: string, { file }: Place, placeOf: (place: Place) => Place | undefined): string {
  return message.replace(/(?<=\brows? )\d+(?:(?:, | and )\d+)*/g, (numbers) =>
    numbers.replace(
      /\d+/g,
      (row) => placeOf({ file, row: Number(row) })?.cell?.replace(/^[A-Z]+/, '') ?? row,
    ),
  );
}

/** The one change that makes an error by itself, where there is one. */
function causesOf(error: Problem, { changes, errorsOf }: ResultingBook): readonly CellChange[] {
  if (changes.length === 1) return changes;
  // A figure that holds for the whole book is the likelier cause of what is wrong elsewhere.
  const likely = [...changes].sort((one, other) => rank(one) - rank(other)).slice(0, mostTries);
  return likely.filter((change) => errorsOf([change]).some((each) => isSame(each, error))).slice(0, 1);
}

function rank({ target }: CellChange): number {
  return target.kind === 'line' ? 0 : 1;
}

function isSame(one: Problem, other: Problem): boolean {
  const { file, row, column } = one.where;
  return (
    one.code === other.code &&
    file === other.where.file &&
    row === other.where.row &&
    column === other.where.column
  );
}

/** What a change does to cells that are not in its row. */
function fromCause(cause: CellChange, all: readonly Problem[], book: Book): Problem {
  const [first] = all as [Problem];
  const shown = (value: CellChange['after']): string =>
    shownValue(value, cause.field.kind, book.settings) || 'blank';
  const more = all.length > 1 ? ` ${all.length - 1} more of the kind.` : '';
  return {
    ...first,
    where: cause.where,
    message: `With ${cause.heading} at ${shown(cause.after)} instead of ${shown(cause.before)}: ${first.message}${more}`,
    found: shown(cause.after),
  };
}
