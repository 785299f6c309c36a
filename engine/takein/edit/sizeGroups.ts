import { type Problem, problem } from '../../book/problems/problem.ts';
import type { CellChange } from '../compare/comparison.ts';
import { sameValue } from '../compare/sameValue.ts';
import type { BookRows } from './bookRows.ts';

/**
 * Changes of rows that are one row in the book: a size run has a row for every size in the workbook. Changed alike in
 * all of them it is one change. A table of pairs gets a row of the size's own otherwise; any other is refused, as the
 * book has no place for what holds for one size alone.
 */
export function gatherSizes(
  changes: readonly CellChange[],
  rowsOf: (file: string) => BookRows,
): { readonly changes: readonly CellChange[]; readonly problems: readonly Problem[] } {
  const kept: CellChange[] = [];
  const problems: Problem[] = [];
  const groups = new Map<string, CellChange[]>();
  for (const change of changes) {
    const { target } = change;
    const row = target.kind === 'line' ? undefined : target.row;
    const siblings = row === undefined ? [] : rowsOf(change.file).siblings(row);
    if (row === undefined || siblings.length < 2) {
      kept.push(change);
      continue;
    }
    const id = `${change.file}|${change.column}|${siblings[0]}`;
    groups.set(id, [...(groups.get(id) ?? []), change]);
  }
  for (const group of groups.values()) {
    const [first] = group;
    if (first === undefined || first.target.kind === 'line' || first.target.row === undefined) continue;
    const rows = rowsOf(first.file);
    const siblings = rows.siblings(first.target.row);
    const alike = group.every((each) => sameValue(each.after, first.after) && each.isBlank === first.isBlank);
    const all = new Set(group.map(({ target }) => (target.kind === 'line' ? undefined : target.row)));
    if (alike && all.size === siblings.length) {
      kept.push({ ...first, row: group.map(({ row }) => row).join('; ') });
    } else if (first.target.kind === 'pair') {
      for (const each of group)
        if (each.target.kind === 'pair')
          kept.push({ ...each, target: { ...each.target, row: undefined, like: each.target.row } });
    } else {
      problems.push(partly(first, group, siblings.length, rows));
    }
  }
  return { changes: kept, problems };
}

function partly(first: CellChange, group: readonly CellChange[], count: number, rows: BookRows): Problem {
  const place = first.target.kind === 'row' ? rows.place(first.target.row) : { file: first.file };
  const names = group.map(({ row }) => `“${row}”`).join(', ');
  return problem(
    'workbook-layout',
    first.where,
    `${first.heading} was changed for ${names}, and ${place.file}, row ${place.row}, holds it once for all ${count} sizes.`,
    {
      found: String(first.after ?? ''),
      accepted: 'the same value in the rows of all sizes',
      mend: `Change it alike in all ${count} rows, or give the size a row of its own in ${place.file}.`,
    },
  );
}
