import { type Problem, problem } from '../../book/problems/problem.ts';
import { isOpen, type OriginSheet } from '../../origin/origin.ts';
import type { Plan } from '../../sheets/plan.ts';
import { BookRows } from '../edit/bookRows.ts';
import type { OpenedWorkbook } from '../read/openWorkbook.ts';
import { compareCopy } from './compareCopy.ts';
import { compareForm } from './compareForm.ts';
import { compareTable } from './compareTable.ts';
import type { Comparison } from './comparison.ts';
import { cellName, heldValue, type LocatedSheet, locateSheets } from './locateSheet.ts';
import { keyOf } from './sameValue.ts';
import { watchFormulas } from './watchFormulas.ts';

/**
 * Compares all of a workbook with the book; everything that is found goes into the comparison.
 *
 * @param plan what the workbook was written from, where the book is still that one
 */
export function compareWorkbook(
  comparison: Comparison,
  { saved, origin, originSheet }: OpenedWorkbook,
  plan: Plan | undefined,
): void {
  const { located, copies, gone, twice } = locateSheets(saved, origin.sheets);
  if (isOfAnotherBook(comparison, origin.sheets)) {
    comparison.problems.push(
      problem(
        'workbook-foreign',
        { file: comparison.file },
        'The workbook was written from another book: most of its products and materials are not in this one.',
        {
          accepted: 'a workbook of this book',
          mend: 'Give the folder of the book that it was written from.',
        },
      ),
    );
    return;
  }
  for (const sheet of gone) {
    if (saved.sheets.some(({ title }) => title === sheet.title)) {
      comparison.problems.push(nameless(comparison, sheet));
      continue;
    }
    comparison.leave(
      { file: comparison.file, sheet: sheet.title },
      `The sheet ${sheet.title} is not there any more; the book keeps what it says.`,
    );
  }
  for (const sheet of twice) {
    comparison.problems.push(
      problem(
        'workbook-layout',
        { file: comparison.file, sheet: sheet.title },
        `The sheet ${sheet.title} is there more than once, and none or several have its title.`,
        {
          accepted: `one sheet with the title ${sheet.title}`,
          mend: `Give the one that counts the title ${sheet.title}, or remove the copies.`,
        },
      ),
    );
  }
  const ours = new Set([originSheet, ...[...located, ...copies].map((each) => each.saved)]);
  const titles = new Set(origin.sheets.map(({ title }) => title));
  for (const sheet of saved.sheets) {
    const isOurs =
      ours.has(sheet) || (titles.has(sheet.title) && !twice.some(({ title }) => title === sheet.title));
    if (!isOurs)
      comparison.leave(
        { file: comparison.file, sheet: sheet.title },
        `The sheet ${sheet.title} is not one of Sennit’s; it is left alone.`,
      );
  }
  for (const sheet of located) {
    tellColumns(comparison, sheet);
    tellMerged(comparison, sheet);
    if (sheet.origin.layout === 'form') compareForm(comparison, sheet);
    else compareTable(comparison, sheet);
  }
  for (const copy of copies) compareCopy(comparison, copy);
  // Where a sheet or column is missing, every formula that used it looks changed.
  const isWhole =
    gone.length === 0 && twice.length === 0 && located.every(({ missing }) => missing.length === 0);
  if (isWhole) watchFormulas(comparison, saved, origin, located, plan);
  else if (gone.length > 0)
    comparison.leave(
      { file: comparison.file },
      'As a sheet is not there, it was not looked at whether formulas were changed; the book keeps its own.',
    );
}

/** A sheet without its hidden column: its rows and totals look alike. */
function nameless({ file }: Comparison, { title }: OriginSheet): Problem {
  return problem(
    'workbook-layout',
    { file, sheet: title },
    `The hidden column with the names of rows is not on the sheet ${title} any more, so it is not known which of its rows is which.`,
    {
      accepted: 'the hidden column as it was written',
      mend: `Bring it back (undo, or an older copy); or write the workbook anew, and enter there what was changed on ${title}.`,
    },
  );
}

/** Whether hardly a product or material of the workbook is one of the book. */
function isOfAnotherBook(comparison: Comparison, sheets: readonly OriginSheet[]): boolean {
  let found = 0;
  let all = 0;
  for (const sheet of sheets.filter(({ id }) => id === 'products' || id === 'materials')) {
    const located = { origin: sheet } as LocatedSheet;
    const rows = new BookRows(comparison.book, `${sheet.id}.csv`, sheet.key);
    for (const row of sheet.rows) {
      all += 1;
      if (rows.find(keyOf(sheet.key.map((id) => heldValue(located, row, id)))) !== undefined) found += 1;
    }
  }
  return found * 2 < all;
}

/** Columns that are not there, and columns that are not ours. */
function tellColumns(comparison: Comparison, sheet: LocatedSheet): void {
  for (const column of sheet.missing.filter((each) => isOpen(each) || sheet.origin.key.includes(each.id))) {
    const heading = sheet.origin.layout === 'form' ? 'Value' : column.heading;
    comparison.problems.push(
      problem(
        'workbook-layout',
        comparison.place(sheet),
        `The heading “${heading}” is not found in row ${sheet.headingRow}.`,
        {
          accepted: `a column with the heading ${heading}`,
          mend: 'Write the heading back over its column.',
        },
      ),
    );
  }
  for (const { column, heading } of sheet.strange) {
    if (sheet.origin.layout === 'form') continue;
    comparison.leave(
      comparison.place(sheet, sheet.headingRow, column),
      `The column “${heading}” is not one of the sheet’s; it is left alone.`,
    );
  }
}

/** Cells drawn together hide what the others of them held. */
function tellMerged(comparison: Comparison, sheet: LocatedSheet): void {
  const columns = [...sheet.columns.values(), sheet.nameColumn];
  for (const { top, left, bottom, right } of sheet.saved.merged) {
    if (top === bottom && left === right) continue;
    const hits = bottom > sheet.headingRow && columns.some((column) => column >= left && column <= right);
    if (!hits) continue;
    const range = `${cellName(top, left)}:${cellName(bottom, right)}`;
    comparison.problems.push(
      problem(
        'workbook-layout',
        { ...comparison.place(sheet), cell: range },
        'These cells are merged into one, so it is not known what each of them says.',
        {
          accepted: 'each cell by itself',
          mend: 'Split them, and write into each what it should say.',
        },
      ),
    );
  }
}
