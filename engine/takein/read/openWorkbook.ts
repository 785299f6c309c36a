import { type Problem, problem } from '../../book/problems/problem.ts';
import type { Settings } from '../../book/settings.ts';
import type { Origin } from '../../origin/origin.ts';
import { isOrigin, readOrigin } from '../../origin/originCells.ts';
import { readSavedWorkbook } from './readSavedWorkbook.ts';
import { mostCells, type SavedSheet, type SavedWorkbook, UnreadableWorkbook } from './savedWorkbook.ts';

/** A workbook of ours, as somebody saved it. */
export interface OpenedWorkbook {
  readonly saved: SavedWorkbook;
  readonly origin: Origin;
  readonly originSheet: SavedSheet;
}

const faults: Readonly<Record<UnreadableWorkbook['fault'], readonly [message: string, mend: string]>> = {
  'not-whole': [
    'The file is not whole: its end is missing, or it is no workbook.',
    'Copy it again from where it was saved, or open and save it in a spreadsheet program.',
  ],
  locked: ['The file is encrypted.', 'Save it without a password.'],
  damaged: [
    'The file is damaged: a part of it cannot be read.',
    'Open it in a spreadsheet program, save it under another name, and take that one in.',
  ],
  'too-large': [
    'The file says that it grows to a size that no workbook of a book has; it was not unpacked.',
    'Take in the workbook that sennit workbook wrote. Do not open a file from someone you do not know.',
  ],
  old: ['The file is of an older format.', 'Save it as .xlsx or .ods.'],
  binary: ['The file is of a binary format.', 'Save it as .xlsx or .ods.'],
  empty: ['The file is empty.', 'Save the workbook again in a spreadsheet program.'],
  other: ['The file is no workbook.', 'Give the .xlsx or .ods file that was written from this book.'],
};

/** Opens a workbook and the hidden sheet that says where it comes from. */
export function openWorkbook(
  file: string,
  bytes: Uint8Array,
): { readonly opened: OpenedWorkbook } | { readonly problem: Problem } {
  let saved: SavedWorkbook;
  try {
    saved = readSavedWorkbook(bytes);
  } catch (error) {
    if (!(error instanceof UnreadableWorkbook)) throw error;
    const [message, mend] = faults[error.fault];
    return { problem: problem('workbook-unreadable', { file }, message, { accepted, mend }) };
  }
  const sheets = saved.sheets.map((sheet) => ({ sheet, rows: textRows(sheet) }));
  const found = sheets.find(({ rows }) => isOrigin(rows));
  if (found === undefined) {
    const other = otherWorkbook(saved);
    if (other !== undefined)
      return foreign(
        file,
        `This is ${other}, and not the workbook of a book's costs and prices; nothing of it comes home.`,
        'Change the tables of the book, or its own workbook (sennit workbook), and write this one anew.',
      );
    return foreign(
      file,
      'The workbook does not say which book it was written from: its hidden sheet is missing.',
      'Take in a workbook that sennit workbook wrote, with its hidden sheet. An older one has none: write it anew, and enter the changes there.',
    );
  }
  const origin = readOrigin(found.rows);
  if (origin === 'later')
    return foreign(
      file,
      'The workbook was written by a later version of Sennit.',
      'Use that version to take it in.',
    );
  if (origin === 'damaged')
    return foreign(
      file,
      'The hidden sheet that says where the workbook comes from was changed, so it cannot be relied on.',
      'Write the workbook anew, and enter the changes there.',
    );
  return { opened: { saved, origin, originSheet: found.sheet } };
}

const accepted = 'a workbook that sennit workbook wrote, saved as .xlsx or .ods';

function foreign(file: string, message: string, mend: string): { readonly problem: Problem } {
  return { problem: problem('workbook-foreign', { file }, message, { accepted, mend }) };
}

/** What else of ours a workbook without a hidden sheet may be: its title says so, or its sheets do. */
function otherWorkbook({ documentTitle, sheets }: SavedWorkbook): string | undefined {
  const month = /(?:^|: )month of (.+)$/i.exec(documentTitle)?.[1];
  if (month !== undefined) return `the month workbook of ${month}`;
  const list = /^(Price list|Line sheet)(?:: |$)/.exec(documentTitle)?.[1] ?? onlyTitle(sheets);
  if (list !== undefined)
    return list === 'Line sheet' ? 'a line sheet for shops' : 'a price list for customers';
  const titles = sheets.map(({ title }) => title);
  return ['Journal', 'Postings'].every((title) => titles.includes(title))
    ? 'the workbook of a month'
    : undefined;
}

function onlyTitle([sheet, ...others]: readonly SavedSheet[]): string | undefined {
  const title = others.length === 0 ? sheet?.title : undefined;
  return title === 'Price list' || title === 'Line sheet' ? title : undefined;
}

/** The cells of a sheet as texts without gaps, each row as far as its last one. */
function textRows({ rows }: SavedSheet): string[][] {
  const last = [...rows.keys()].reduce((most, row) => Math.max(most, row), 0);
  // Only a sheet of texts can be the hidden one, and that has a mark in its second row.
  if (typeof rows.get(2)?.get(1)?.value !== 'string') return [];
  const widths = Array.from({ length: last }, (_, at) =>
    [...(rows.get(at + 1)?.keys() ?? [])].reduce((most, column) => Math.max(most, column), 0),
  );
  // Gaps are filled, and cells far away would have them without end.
  if (widths.reduce((sum, width) => sum + width, 0) > mostCells / 4) return [];
  return widths.map((width, at) =>
    Array.from({ length: width }, (_, column) => String(rows.get(at + 1)?.get(column + 1)?.value ?? '')),
  );
}

/** Why a workbook cannot come home into this book, where its units are not the book's any more. */
export function unitProblem(file: string, origin: Origin, settings: Settings): Problem | undefined {
  const names = ['currency', 'lengthUnit', 'cordUnit', 'weightUnit'] as const;
  const words = {
    currency: 'currency',
    lengthUnit: 'length_unit',
    cordUnit: 'cord_unit',
    weightUnit: 'weight_unit',
  };
  const other = names.find((name) => origin.settings[name] !== settings[name]);
  if (other === undefined) return undefined;
  return problem(
    'workbook-foreign',
    { file },
    `The workbook was written when the book had ${words[other]} ${origin.settings[other]}; now it has ${settings[other]}.`,
    {
      found: String(origin.settings[other]),
      accepted: String(settings[other]),
      mend: `Set ${words[other]} back to ${origin.settings[other]} in book.yaml, take the workbook in, and set it again; or write the workbook anew.`,
    },
  );
}
