import { mostColumnsOfAll, tooLarge } from '../book/limits.ts';
import { mendName } from '../book/problems/nearest.ts';
import { type Problem, problem } from '../book/problems/problem.ts';
import { checkNames } from './checkNames.ts';
import type { SheetDefinition } from './definition.ts';
import { readSheetFile, type SheetFile } from './readSheetFile.ts';

/** Reads sheet files by path, each on its own. */
export function readSheetFiles(files: ReadonlyMap<string, string>): SheetFile[] {
  return [...files].map(([file, source]) => readSheetFile(file, source));
}

/**
 * Puts sheet files together: whole sheets, and columns that are added to one (`extends: costs`).
 *
 * @param files shipped ones first, then the book's own
 * @returns sheets in workbook order, and what is wrong with the files
 */
export function assemble(files: readonly SheetFile[]): {
  definitions: SheetDefinition[];
  problems: Problem[];
} {
  const problems: Problem[] = files.flatMap((file) => file.problems);
  const sheets = new Map<string, SheetDefinition>();
  for (const { sheet } of files) {
    if (sheet === undefined) continue;
    if (!sheets.has(sheet.sheet)) {
      sheets.set(sheet.sheet, sheet);
      continue;
    }
    problems.push(
      problem('key-twice', sheet.at, `There is a sheet “${sheet.sheet}” already.`, {
        found: sheet.sheet,
        accepted: 'a name of its own',
        mend: `Rename it, or write “extends: ${sheet.sheet}” to add columns to that one.`,
      }),
    );
  }
  for (const { extension } of files) {
    if (extension === undefined) continue;
    const base = sheets.get(extension.extends);
    if (base !== undefined) {
      sheets.set(base.sheet, { ...base, columns: [...base.columns, ...extension.columns] });
      continue;
    }
    problems.push(
      problem('sheet-unknown', extension.at, `There is no sheet “${extension.extends}” to add columns to.`, {
        found: extension.extends,
        accepted: [...sheets.keys()].join(', '),
        mend: mendName(extension.extends, [...sheets.keys()]),
      }),
    );
  }
  const definitions = [...sheets.values()].sort((one, other) => one.place - other.place);
  for (const definition of definitions) problems.push(...twinColumns(definition));
  const columns = definitions.reduce((sum, each) => sum + each.columns.length, 0);
  const last = definitions.at(-1);
  // Columns that each need the one before make a chain as long as there are columns.
  if (columns > mostColumnsOfAll && last !== undefined)
    problems.push(
      tooLarge(
        last.at,
        `All sheets together have ${columns} columns`,
        mostColumnsOfAll,
        'Take out sheets of your own.',
      ),
    );
  problems.push(...checkNames(definitions));
  return { definitions, problems };
}

/** Reads and puts together sheet files in one step. */
export function readDefinitions(files: ReadonlyMap<string, string>): {
  definitions: SheetDefinition[];
  problems: Problem[];
} {
  return assemble(readSheetFiles(files));
}

/** Columns of one sheet that have the same name. */
export function twinColumns(definition: SheetDefinition): Problem[] {
  const seen = new Set<string>();
  return definition.columns.flatMap((column) => {
    if (!seen.has(column.id)) {
      seen.add(column.id);
      return [];
    }
    return [
      problem(
        'column-twice',
        { ...column.at, column: column.heading },
        `The sheet ${definition.sheet} has a column “${column.id}” already.`,
        {
          found: column.id,
          accepted: 'each column name once in a sheet',
          mend: 'Rename it.',
        },
      ),
    ];
  });
}
