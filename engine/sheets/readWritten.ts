import { mendName } from '../book/problems/nearest.ts';
import { type Problem, problem } from '../book/problems/problem.ts';
import type { ColumnDefinition, SheetDefinition } from './definition.ts';
import type { NameReference, ParsedFormula } from './expression.ts';
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
        if (faults.length === 0 && 'tree' in parsed) formulas.push({ key: keys[row]!, tree: parsed.tree });
      });
      written.set(`${definition.sheet}.${column.id}`, { keys, formulas });
    }
  }
  return { written, problems };
}

function faultsOf(text: string, column: ColumnDefinition): Problem[] {
  const parsed = parseFormula(text);
  const unknown =
    'tree' in parsed ? [...namesIn(parsed.tree)].flatMap((name) => unknownName(name, text, column)) : [];
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
  const problems: Problem[] = [];
  resolveFormula(text, column, figures, names, problems);
  const where = { ...column.at, column: column.id };
  // The names are told by their own words: a maker knows figures of a weave, not a sheet made up to look them up.
  const others = problems.filter(({ code }) => code !== 'column-name-unknown' && code !== 'sheet-unknown');
  return [...unknown, ...others.map((each) => ({ ...each, where }))];
}

function* namesIn(tree: ParsedFormula): Generator<NameReference> {
  if (tree.kind === 'reference') yield tree.to;
  else if (tree.kind === 'negate') yield* namesIn(tree.of);
  else if (tree.kind === 'call') for (const each of tree.args) yield* namesIn(each);
  else if (tree.kind === 'binary') {
    yield* namesIn(tree.left);
    yield* namesIn(tree.right);
  }
}

function unknownName(
  { sheet, column: name }: NameReference,
  text: string,
  column: ColumnDefinition,
): Problem[] {
  const uses = column.uses ?? [];
  if (sheet === undefined && uses.includes(name)) return [];
  const written = sheet === undefined ? name : `${sheet}.${name}`;
  const accepted = uses.join(', ');
  return [
    problem(
      sheet === undefined ? 'column-name-unknown' : 'sheet-unknown',
      { ...column.at, column: column.id },
      `“${written}” is no figure that this formula can use.`,
      // “core_strands” is how products.csv calls what a formula calls “core”.
      {
        found: text,
        accepted,
        mend: mendName(uses.find((each) => name.startsWith(`${each}_`)) ?? name, uses),
      },
    ),
  ];
}
