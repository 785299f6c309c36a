/**
 * A problem is the maker's to mend: a value in a returned list, never thrown.
 * (An exception, by contrast, is a fault of ours.)
 */
export type Severity = 'error' | 'watch';

/** The closed list of problem codes. One row each in `docs/errors.md`; a test holds the two equal. */
export const problemCodes = [
  'file-missing',
  'file-unknown',
  'yaml-syntax',
  'csv-syntax',
  'setting-unknown',
  'setting-missing',
  'column-missing',
  'column-unknown',
  'column-twice',
  'cell-missing',
  'cell-surplus',
  'cell-clash',
  'cell-too-long',
  'too-large',
  'not-a-number',
  'not-a-measure',
  'wrong-unit',
  'date-unclear',
  'not-a-choice',
  'out-of-range',
  'percent-suspect',
  'key-twice',
  'key-bad',
  'reference-unknown',
  'sheet-shape',
  'sheet-unknown',
  'column-name-unknown',
  'formula-syntax',
  'function-unknown',
  'needs-aggregate',
  'needs-key',
  'circle',
  'change-unclear',
  'check-failed',
  'unlikely',
  'month-closed',
  'calculation-failed',
  'programs-differ',
  'workbook-unreadable',
  'workbook-foreign',
  'workbook-layout',
  'workbook-cell',
  'workbook-conflict',
  'workbook-left',
] as const;

export type ProblemCode = (typeof problemCodes)[number];

/** Where a problem sits. `row` is the row number a spreadsheet program shows for that file. */
export interface Place {
  readonly file: string;
  readonly row?: number;
  readonly line?: number;
  readonly column?: string;
  /** In a workbook: the sheet by its title, and the cell, such as G7. */
  readonly sheet?: string;
  readonly cell?: string;
}

export interface Problem {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly where: Place;
  /** What is wrong, in one sentence, with the value seen. */
  readonly message: string;
  /** What was found, verbatim; empty where nothing was. */
  readonly found: string;
  /** What would be accepted there. */
  readonly accepted: string;
  /** What to do about it. */
  readonly mend: string;
}

export type ProblemDetail = Partial<Pick<Problem, 'severity' | 'found' | 'accepted' | 'mend'>>;

/** Builds a problem; severity defaults to `error`, the other details to empty text. */
export function problem(
  code: ProblemCode,
  where: Place,
  message: string,
  detail: ProblemDetail = {},
): Problem {
  return {
    code,
    severity: detail.severity ?? 'error',
    where,
    message,
    found: detail.found ?? '',
    accepted: detail.accepted ?? '',
    mend: detail.mend ?? '',
  };
}

/** True where at least one problem stops the book from being priced. */
export function hasErrors(problems: readonly Problem[]): boolean {
  return problems.some((each) => each.severity === 'error');
}

/** What a place within a file that is no table is called; a question that a program asked is one. */
const columnWords: Readonly<Record<string, string>> = { 'book.yaml': 'setting', question: 'field' };

/** "products.csv, row 7, column weave", "book.yaml, line 9, setting currency" or "sheets/tags.yaml, line 12". */
export function placeText(where: Place): string {
  const parts = [where.file];
  if (where.sheet !== undefined) parts.push(`sheet ${where.sheet}`);
  if (where.cell !== undefined) parts.push(`cell ${where.cell}`);
  if (where.row !== undefined) parts.push(`row ${where.row}`);
  if (where.line !== undefined) parts.push(`line ${where.line}`);
  if (where.column !== undefined) parts.push(`${columnWords[where.file] ?? 'column'} ${where.column}`);
  return parts.join(', ');
}
