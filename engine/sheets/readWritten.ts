import { type Problem, problem } from '../book/problem.ts';
import type { ColumnDefinition, SheetDefinition } from './definition.ts';
import { parseFormula } from './parseFormula.ts';
import { type Names, resolveFormula } from './resolve.ts';
import type { SheetRows } from './rows.ts';
import type { WrittenColumn, WrittenFormula, WrittenFormulas } from './written.ts';

/**
 * Reads the formulas that stand in tables (`kind: formula`), such as the take-up of a weave's family, and
 * checks each where it stands: it may name only the columns that its column `uses`, so that every sheet which
 * works it out can give them.
 */
export function readWritten(
  definitions: readonly SheetDefinition[],
  rows: ReadonlyMap<string, { readonly rows: SheetRows }>,
): { written: WrittenFormulas; problems: Problem[] } {
  const written = new Map<string, WrittenColumn>();
  const problems: Problem[] = [];
  for (const definition of definitions) {
    const laid = rows.get(definition.sheet)?.rows;
    const keys = (laid?.inputs.get(definition.key[0] ?? '') ?? []).map(String);
    for (const column of definition.columns.filter(({ kind }) => kind === 'formula')) {
      const formulas: WrittenFormula[] = [];
      laid?.inputs.get(column.id)?.forEach((text, row) => {
        if (typeof text !== 'string' || text === '') return;
        const at = laid.places[row] ?? definition.at;
        const faults = faultsOf(text, { ...column, at });
        problems.push(...faults);
        const parsed = parseFormula(text);
        if (faults.length === 0 && 'tree' in parsed)
          formulas.push({ key: keys[row] ?? '', tree: parsed.tree });
      });
      written.set(`${definition.sheet}.${column.id}`, { keys, formulas });
    }
  }
  return { written, problems };
}

function faultsOf(text: string, column: ColumnDefinition): Problem[] {
  const problems: Problem[] = [];
  const figures: SheetDefinition = {
    sheet: 'figures',
    title: 'Figures',
    answers: '',
    place: 0,
    rows: { list: [] },
    key: [],
    columns: (column.uses ?? []).map((id) => ({ ...column, id, kind: 'number' })),
    at: column.at,
  };
  const names: Names = { sheets: new Map(), base: (sheet) => sheet, written: new Map() };
  resolveFormula(text, column, figures, names, problems);
  return problems.map((each) => inTable(each, column));
}

/** A maker knows columns of a table, not of a sheet that is made up for looking names up. */
function inTable(found: Problem, column: ColumnDefinition): Problem {
  const where = { ...found.where, column: column.id };
  if (found.code !== 'column-name-unknown' && found.code !== 'sheet-unknown') return { ...found, where };
  return problem(found.code, where, 'This formula names something that it cannot know here.', {
    found: found.found,
    accepted: (column.uses ?? []).join(', '),
    mend: found.code === 'sheet-unknown' ? 'Use these figures only.' : found.mend,
  });
}
