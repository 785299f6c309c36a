import type { Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { Speller, type Spelling, workbookSpelling } from '../../engine/sheets/spell.ts';
import type { IronCalcInput, IronCalcSheets } from './ironcalc.ts';
import { type PlanCell, planCells } from './planCells.ts';

/** As the workbook spells, but for what a bare engine lacks: defined names and the file format's prefixes. */
const bareSpelling: Spelling = { ...workbookSpelling, names: false, xlsxPrefix: false };

/** The cells of a plan, at the places of the workbook, for an engine that takes cells instead of a file. */
export function ironCalcCells(plan: Plan): IronCalcSheets {
  const speller = new Speller(new PlanIndex(plan), bareSpelling);
  const sheets = new Map<string, IronCalcInput[][]>(plan.sheets.map((sheet) => [sheet.title, []]));
  for (const cell of planCells(plan)) {
    const rows = sheets.get(cell.sheet.title) ?? [];
    const [line, across] = cell.at;
    while (rows.length <= line) rows.push([]);
    const row = rows[line] ?? [];
    while (row.length <= across) row.push(null);
    row[across] = cellText(cell, speller);
  }
  return sheets;
}

function cellText({ sheet, column, columnAt, row }: PlanCell, speller: Speller): IronCalcInput {
  if (row === 'total') return `=${speller.total(sheet, columnAt)}`;
  if (column.inputs !== undefined) return column.inputs[row] ?? null;
  return `=${speller.formula(sheet, column, row)}`;
}

/** Every cell that a cell's formula looks at, as `sheet!A1`, ranges written out. */
export function sourcesOf(plan: Plan): (cell: PlanCell) => string[] {
  // Look-ups by their cell, as the engine spells them, but in the rows of the workbook.
  const direct: Spelling = {
    ...workbookSpelling,
    lookups: 'direct',
    names: false,
    sheetName: (sheet) => sheet.id,
  };
  const speller = new Speller(new PlanIndex(plan), direct);
  return (cell) => {
    const { sheet, column, columnAt, row } = cell;
    if (row !== 'total' && column.inputs !== undefined) return [];
    const formula = row === 'total' ? speller.total(sheet, columnAt) : speller.formula(sheet, column, row);
    const pattern = /(?:([a-z_0-9]+)!)?\$?([A-Z]{1,3})\$?(\d+)(?::\$?[A-Z]{1,3}\$?(\d+))?(?![\w(])/g;
    return [...formula.replace(/"[^"]*"/g, '').matchAll(pattern)].flatMap(([, other, letters, first, last]) =>
      Array.from(
        { length: Number(last ?? first) - Number(first) + 1 },
        (_, at) => `${other ?? sheet.id}!${letters}${Number(first) + at}`,
      ),
    );
  };
}
