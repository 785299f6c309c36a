import type { BookFiles } from './book/book.ts';
import { fingerprint } from './book/files/fingerprint.ts';
import { hasErrors, type Place, type Problem } from './book/problems/problem.ts';
import { openBook, type Priced, priceBook, type Source } from './priceBook.ts';
import { bookSchema } from './sheets/bookSchema.ts';
import { switchBook } from './switchBook.ts';
import { compareWorkbook } from './takein/compare/compareWorkbook.ts';
import {
  type AddedRow,
  type CellChange,
  Comparison,
  type Conflict,
  type RemovedRow,
  type Side,
} from './takein/compare/comparison.ts';
import { BookRows } from './takein/edit/bookRows.ts';
import { type EditedFiles, editFiles } from './takein/edit/editFiles.ts';
import { pastMonths } from './takein/edit/pastMonths.ts';
import { gatherSizes } from './takein/edit/sizeGroups.ts';
import { Fields } from './takein/fields.ts';
import { openWorkbook, unitProblem } from './takein/read/openWorkbook.ts';
import { shownValue } from './takein/shownValue.ts';
import { tellErrors } from './takein/tellErrors.ts';

export interface TakeinQuestion {
  /** What the workbook is called. */
  readonly file: string;
  readonly bytes: Uint8Array;
  /** Which side stands where both were changed; undefined refuses. */
  readonly prefer?: Side;
  /** ISO date, and the months that are closed (2026-10): whoever says them is told of months that would change. */
  readonly today?: string;
  readonly closed?: readonly string[];
}

/** A change as it is shown; texts in the book's own notation, numbers in the unit of the sheet. */
export interface TakeinChange {
  readonly how: 'changed' | 'added' | 'removed';
  readonly sheet: string;
  readonly cell: string;
  readonly row: string;
  readonly heading: string;
  readonly before: string;
  readonly after: string;
  /** The book's file and column that it goes into. */
  readonly file: string;
  readonly column: string;
}

/** A value that workbook and book changed differently. */
export interface TakeinConflict {
  readonly sheet: string;
  readonly cell: string;
  readonly row: string;
  readonly heading: string;
  readonly written: string;
  readonly workbook: string;
  readonly book: string;
}

export interface TakeinReport {
  /** Why nothing can be taken in; none where the book can be written. */
  readonly problems: readonly Problem[];
  /** What is left alone, and what is good to know. */
  readonly remarks: readonly Problem[];
  readonly conflicts: readonly TakeinConflict[];
  readonly changes: readonly TakeinChange[];
  /** When the workbook was written (ISO date), and files of the book that were changed since. */
  readonly written?: string;
  readonly changedSince: readonly string[];
  /** New texts of the book's files; only those that change. */
  readonly files: BookFiles;
}

/**
 * Brings the changes of a workbook home: compares it with what it was written from and with the book as it is now,
 * edits the book's files in memory, and prices the book that they make. Nothing is written.
 */
export function takeinBook(source: Source, question: TakeinQuestion): TakeinReport {
  const nothing = {
    remarks: [],
    conflicts: [],
    changes: [],
    changedSince: [],
    files: new Map<string, string>(),
  };
  const now = priceBook(source);
  if (now.book === undefined || now.plan === undefined || hasErrors(now.problems))
    return { ...nothing, problems: now.problems };
  const found = openWorkbook(question.file, question.bytes);
  if ('problem' in found) return { ...nothing, problems: [found.problem] };
  const { origin } = found.opened;
  const { settings } = now.book;
  const unit = unitProblem(question.file, origin, settings);
  if (unit !== undefined) return { ...nothing, problems: [unit] };
  const fields = new Fields(bookSchema(openBook(source).definitions));
  const comparison = new Comparison(question.file, now.book, fields, question.prefer);
  const changed = changedSince(origin.files, source.book);
  // Of another book than now it is not known which rows its formulas used.
  const isSame = changed.length === 0 && Object.keys(origin.files).length > 0;
  compareWorkbook(comparison, found.opened, isSame ? switchBook(source).plan : undefined);
  const rowsOf = rowsByFile(comparison);
  const gathered = gatherSizes(comparison.cells, rowsOf);
  const { added, removed } = comparison;
  const touched = [
    ...gathered.changes,
    ...[...added, ...removed].map((each) => ({ ...each, column: '', heading: '' })),
  ];
  const { today, closed = [] } = question;
  const past = today === undefined ? [] : pastMonths(touched, now.book, today, closed);
  const report = {
    remarks: [...comparison.remarks, ...past],
    conflicts: comparison.conflicts.map((each) => conflictShown(each, comparison)),
    changes: [
      ...gathered.changes.map((each) => changeShown(each, comparison)),
      ...added.flatMap((each) => additionShown(each, comparison)),
      ...removed.map(({ where, row, file }) => ({
        ...placeShown(where),
        how: 'removed' as const,
        row,
        heading: '',
        before: row,
        after: '',
        file,
        column: '',
      })),
    ],
    written: origin.date,
    changedSince: changed,
  };
  const isOpen = comparison.conflicts.length > 0 && question.prefer === undefined;
  const edit = (
    changes: readonly CellChange[],
    more: readonly AddedRow[],
    gone: readonly RemovedRow[],
  ): EditedFiles => editFiles(comparison, changes, more, gone, source.book, source.tables, rowsOf);
  const priced = (files: BookFiles): Priced =>
    priceBook({ ...source, book: new Map([...source.book, ...files]) });
  // What can be read is put together even where some cannot, so that every kind of fault is told in one go.
  const edited = edit(gathered.changes, added, removed);
  const after = edited.files.size === 0 ? now : priced(edited.files);
  const problems = [
    ...comparison.problems,
    ...gathered.problems,
    ...edited.problems,
    ...tellErrors(errorsIn(after), {
      comparison,
      changes: gathered.changes,
      edited,
      book: after.book,
      errorsOf: (changes) => errorsIn(priced(edit(changes, [], []).files)),
    }),
  ];
  return { ...report, problems, files: problems.length > 0 || isOpen ? new Map() : edited.files };
}

function errorsIn({ problems }: Priced): Problem[] {
  return problems.filter(({ severity }) => severity === 'error');
}

function rowsByFile({ book, fields }: Comparison): (file: string) => BookRows {
  const known = new Map<string, BookRows>();
  return (file) => {
    const rows = known.get(file) ?? new BookRows(book, file, fields.table(file)?.key ?? []);
    known.set(file, rows);
    return rows;
  };
}

/** Files that are not what they were when the workbook was written. */
function changedSince(written: Readonly<Record<string, string>>, files: BookFiles): string[] {
  return Object.keys(written).filter((file) => {
    const text = files.get(file);
    return text === undefined || fingerprint(text) !== written[file];
  });
}

function placeShown({ sheet = '', cell = '', row }: Place): { sheet: string; cell: string } {
  return { sheet, cell: cell === '' && row !== undefined ? `row ${row}` : cell };
}

function changeShown(change: CellChange, { book }: Comparison): TakeinChange {
  const { kind } = change.field;
  return {
    how: 'changed',
    ...placeShown(change.where),
    row: change.row,
    heading: change.heading,
    before: shownValue(change.before, kind, book.settings),
    after: change.isBlank
      ? change.after === null
        ? ''
        : `blank (${shownValue(change.after, kind, book.settings)})`
      : shownValue(change.after, kind, book.settings),
    file: change.file,
    column: change.column,
  };
}

function additionShown({ cells, row, file }: AddedRow, { book }: Comparison): TakeinChange[] {
  return cells.map(({ field, heading, value, where }) => ({
    how: 'added',
    ...placeShown(where),
    row,
    heading,
    before: '',
    after: shownValue(value, field.kind, book.settings),
    file,
    column: field.id,
  }));
}

function conflictShown(conflict: Conflict, { book }: Comparison): TakeinConflict {
  const shown = (value: Conflict['inBook']): string => shownValue(value, conflict.kind, book.settings);
  return {
    ...placeShown(conflict.where),
    row: conflict.row,
    heading: conflict.heading,
    written: shown(conflict.written),
    workbook: shown(conflict.inWorkbook),
    book: shown(conflict.inBook),
  };
}
