import { problem } from '../../book/problems/problem.ts';
import { compareForm } from './compareForm.ts';
import { compareTable } from './compareTable.ts';
import { type AddedRow, type CellChange, Comparison, type RemovedRow } from './comparison.ts';
import type { LocatedSheet } from './locateSheet.ts';

/**
 * A copy of a sheet beside the sheet itself. It is left alone where it says nothing that would be lost: where all that
 * was changed in it was changed in the sheet as well. Otherwise nobody knows which of the two counts.
 */
export function compareCopy(comparison: Comparison, copy: LocatedSheet): void {
  const { file, book, fields } = comparison;
  const aside = new Comparison(file, book, fields, 'workbook');
  if (copy.origin.layout === 'form') compareForm(aside, copy);
  else compareTable(aside, copy);
  const own = new Set(sayings(comparison));
  const [other] = [
    ...aside.problems.map(({ where }) => where),
    ...says(aside).flatMap(({ text, where }) => (own.has(text) ? [] : [where])),
  ];
  const { title } = copy.saved;
  const original = copy.origin.title;
  if (other === undefined) {
    comparison.leave(
      { file, sheet: title },
      `The sheet ${title} is a copy of ${original}; the copy is left alone.`,
    );
    return;
  }
  comparison.problems.push(
    problem(
      'workbook-layout',
      { ...other, sheet: title },
      `The sheet ${title} is a copy of ${original}, was changed, and does not say what ${original} says.`,
      {
        accepted: `changes on the sheet ${original}`,
        mend: `Write into ${original} what should count, and remove the sheet ${title}.`,
      },
    ),
  );
}

function sayings(comparison: Comparison): string[] {
  return says(comparison).map(({ text }) => text);
}

/** Every change of a comparison as one text, wherever it stands. */
function says({ cells, added, removed }: Comparison): { text: string; where: CellChange['where'] }[] {
  return [
    ...cells.map((each: CellChange) => ({
      text: JSON.stringify([each.file, each.column, each.row, each.after]),
      where: each.where,
    })),
    ...added.map((each: AddedRow) => ({
      text: JSON.stringify([each.file, each.key, ...each.cells.map(({ field, value }) => [field.id, value])]),
      where: each.where,
    })),
    ...removed.map((each: RemovedRow) => ({
      text: JSON.stringify([each.file, each.row, 'removed']),
      where: each.where,
    })),
  ];
}
