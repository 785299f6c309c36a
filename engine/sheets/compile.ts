import type { Book } from '../book/book.ts';
import { mostColumns, mostSheetRows, tooLarge } from '../book/limits.ts';
import { forceUnitOf } from '../book/measures/force.ts';
import { convertLength } from '../book/measures/measure.ts';
import { type Problem, problem } from '../book/problems/problem.ts';
import type { Settings } from '../book/settings.ts';
import { roleOf } from './bookSchema.ts';
import { changeableKeys } from './changeableKeys.ts';
import { findCircles } from './circles.ts';
import type { ColumnDefinition, SheetDefinition } from './definition.ts';
import type { Expression } from './expression.ts';
import { keepRows } from './keepRows.ts';
import { keptIn } from './keptIn.ts';
import { neverBlank } from './neverBlank.ts';
import type { Plan, PlanColumn, PlanSheet } from './plan.ts';
import { presentSheets } from './presentSheets.ts';
import { twinColumns } from './readDefinitions.ts';
import { readWritten } from './readWritten.ts';
import { type Names, resolveFormula } from './resolve.ts';
import { layRows, type SheetRows } from './rows.ts';
import type { WrittenFormulas } from './written.ts';

/**
 * Compiles sheets and a book to a plan: every cell a value or a formula with symbolic references.
 *
 * @param alter changes inputs before rows that depend on them are dropped, as if the book held other figures
 * @returns the plan, and what is wrong with the sheets (the plan is only to be calculated where nothing is)
 */
export function compile(
  given: readonly SheetDefinition[],
  book: Book,
  alter: (plan: Plan) => Plan = (plan) => plan,
): { plan: Plan; problems: Problem[] } {
  const problems: Problem[] = [];
  const definitions = presentSheets(given, book);
  const words = placeholders(book.settings);
  const rows = new Map<string, { definition: SheetDefinition; rows: SheetRows }>();
  const expanded: SheetDefinition[] = [];
  for (const definition of inRowOrder(definitions, problems)) {
    const read = definition.columns.filter((column) =>
      ['key', 'input', 'override', 'made'].includes(roleOf(column, definition)),
    );
    const excess = excessOf(definition, book, rows);
    if (excess !== undefined) problems.push(excess);
    const laid = excess === undefined ? layRows(definition, read, book, rows) : noRows;
    rows.set(definition.sheet, { definition, rows: laid });
  }
  for (const definition of definitions) {
    const repeated = { ...definition, columns: repeatColumns(definition, rows) };
    problems.push(...twinColumns(repeated));
    if (repeated.columns.length > mostColumns)
      problems.push(tooManyColumns(definition, repeated.columns.length));
    expanded.push(repeated);
  }
  const { written, problems: faulty } = readWritten(definitions, rows);
  problems.push(...faulty);
  const names = namesOf(expanded, written);
  const sheets = expanded.map((definition) =>
    compileSheet(definition, rows.get(definition.sheet)?.rows, names, words, problems),
  );
  let plan: Plan = { sheets, settings: book.settings };
  if (problems.length === 0) {
    problems.push(...findCircles(plan), ...changeableKeys(plan));
    if (problems.length === 0) plan = keepRows(alter(plan), expanded);
  }
  return { plan, problems };
}

const noRows: SheetRows = { rowCount: 0, inputs: new Map(), places: [], fixed: [] };

/** Pairs of rows can be more than a sheet, or a memory, holds. */
function excessOf(
  definition: SheetDefinition,
  book: Book,
  rows: ReadonlyMap<string, { readonly rows: SheetRows }>,
): Problem | undefined {
  const source = definition.rows;
  if (!('cross' in source)) return undefined;
  const outer = rows.get(source.cross)?.rows.rowCount ?? 0;
  const inner =
    typeof source.with === 'string' ? (rows.get(source.with)?.rows.rowCount ?? 0) : source.with.length;
  if (outer * inner <= mostSheetRows) return undefined;
  return tooLarge(
    book.tables.has(source.cross) ? { file: `${source.cross}.csv` } : definition.at,
    `The sheet ${definition.title} would have a row for each pair of ${outer} and ${inner} rows`,
    mostSheetRows,
    'Take rows out of the two tables.',
  );
}

function tooManyColumns(definition: SheetDefinition, count: number): Problem {
  return tooLarge(
    definition.at,
    `The sheet ${definition.title} would have ${count} columns`,
    mostColumns,
    'Take some of them out, or rows of the table that repeats them.',
  );
}

/** Sheets whose rows others repeat come first, whatever their place in the workbook. */
function inRowOrder(definitions: readonly SheetDefinition[], problems: Problem[]): SheetDefinition[] {
  const byName = new Map(definitions.map((definition) => [definition.sheet, definition]));
  const done = new Set<string>();
  const open = new Set<string>();
  const ordered: SheetDefinition[] = [];
  function visit(definition: SheetDefinition): void {
    if (done.has(definition.sheet)) return;
    if (open.has(definition.sheet)) {
      problems.push(
        problem('circle', definition.at, `The rows of ${definition.sheet} are made from its own rows.`, {
          accepted: 'rows of another sheet or a table',
          mend: 'Name another sheet under rows.',
        }),
      );
      return;
    }
    open.add(definition.sheet);
    for (const needed of rowSources(definition)) {
      const source = byName.get(needed);
      if (source !== undefined) visit(source);
    }
    open.delete(definition.sheet);
    done.add(definition.sheet);
    ordered.push(definition);
  }
  for (const definition of definitions) visit(definition);
  return ordered;
}

function rowSources(definition: SheetDefinition): string[] {
  const { rows } = definition;
  const parents = definition.belongs?.to ?? [];
  if ('each' in rows) return [rows.each];
  if ('cross' in rows) return typeof rows.with === 'string' ? [rows.cross, rows.with] : [rows.cross];
  return 'table' in rows ? [...parents] : [];
}

function namesOf(definitions: readonly SheetDefinition[], written: WrittenFormulas): Names {
  const sheets = new Map(definitions.map((definition) => [definition.sheet, definition]));
  const base = (name: string): string => {
    const passed = new Set<string>();
    for (let at = name; ; ) {
      const sheet = sheets.get(at);
      const next =
        sheet !== undefined && 'each' in sheet.rows ? sheet.rows.each : (sheet?.stands_for ?? undefined);
      if (next === undefined || passed.has(at)) return at;
      passed.add(at);
      at = next;
    }
  };
  return { sheets, base, written };
}

interface RepeatedColumn extends ColumnDefinition {
  /** The key that `each` stands for. */
  readonly eachKey?: string;
}

/** A column with `each: channels` becomes one column for every channel. */
function repeatColumns(
  definition: SheetDefinition,
  rows: ReadonlyMap<string, { definition: SheetDefinition; rows: SheetRows }>,
): RepeatedColumn[] {
  return definition.columns.flatMap((column): RepeatedColumn[] => {
    if (column.each === undefined) return [column];
    const source = rows.get(column.each);
    const keys = source?.rows.inputs.get(source.definition.key[0]!) ?? [];
    return keys.map((key, index) => ({
      ...column,
      id: `${column.id}_${index + 1}`,
      heading: column.heading.replaceAll('{each}', () => String(key)),
      eachKey: String(key),
    }));
  });
}

/** What `{…}` stands for in headings, units, notes and formulas. */
function placeholders(settings: Settings): ReadonlyMap<string, string> {
  return new Map([
    ['currency', settings.currency],
    ['length', settings.lengthUnit],
    ['cord', settings.cordUnit],
    ['weight', settings.weightUnit],
    ['force', forceUnitOf(settings)],
    ['length_per_cord', String(convertLength(1, settings.cordUnit, settings.lengthUnit))],
    ['fine_per_length', String(convertLength(1, settings.lengthUnit, 'mm'))],
    ['currency_digits', String(settings.currencyDigits)],
  ]);
}

function fill(text: string, words: ReadonlyMap<string, string>): string {
  return text.replace(/\{(\w+)\}/g, (whole, word: string) => words.get(word) ?? whole);
}

function compileSheet(
  definition: SheetDefinition,
  laid: SheetRows | undefined,
  names: Names,
  words: ReadonlyMap<string, string>,
  problems: Problem[],
): PlanSheet {
  const rows: SheetRows = laid ?? noRows;
  const columns = definition.columns.map((column) =>
    compileColumn(column, definition, rows, names, words, problems),
  );
  return {
    id: definition.sheet,
    title: definition.title,
    answers: fill(definition.answers, words),
    layout: 'form' in definition.rows ? 'form' : 'table',
    key: definition.key,
    ...(definition.repeats === true ? { repeats: true } : {}),
    base: names.base(definition.sheet),
    ...(definition.belongs === undefined ? {} : { belongs: definition.belongs }),
    columns,
    rowCount: rows.rowCount,
    places: rows.places,
    fixed: rows.fixed,
    ...(rows.inner === undefined ? {} : { inner: rows.inner }),
  };
}

function compileColumn(
  column: RepeatedColumn,
  definition: SheetDefinition,
  rows: SheetRows,
  names: Names,
  words: ReadonlyMap<string, string>,
  problems: Problem[],
): PlanColumn {
  const role = roleOf(column, definition);
  const formulaOf = (text: string): Expression | undefined =>
    resolveFormula(fill(text, words), column, definition, names, problems, column.eachKey);
  const inputs =
    role === 'computed' || role === 'check'
      ? undefined
      : (rows.inputs.get(column.id) ?? Array<null>(rows.rowCount).fill(null));
  let formula: Expression | undefined;
  let rowFormulas: Expression[] | undefined;
  if (inputs === undefined && column.formula === 'by row' && 'list' in definition.rows) {
    rowFormulas = definition.rows.list.map(
      (row) => formulaOf(row[column.id] ?? '') ?? { kind: 'number', value: 0 },
    );
  } else if (inputs === undefined) {
    formula = formulaOf(column.formula ?? '');
    if (role === 'computed' && formula !== undefined) formula = neverBlank(formula, column, names.sheets);
    if (role === 'check' && formula !== undefined) {
      formula = {
        kind: 'call',
        name: 'IF',
        args: [formula, { kind: 'text', value: 'well' }, { kind: 'text', value: 'look' }],
      };
    }
  }
  const { min, above, max, below } = column;
  const kept = inputs === undefined ? undefined : keptIn(column, definition);
  return {
    id: column.id,
    heading: fill(column.heading, words),
    unit: fill(column.unit ?? '', words),
    note: fill(column.note, words),
    role,
    kind: column.kind ?? 'text',
    bounds: {
      ...(min === undefined ? {} : { min }),
      ...(above === undefined ? {} : { above }),
      ...(max === undefined ? {} : { max }),
      ...(below === undefined ? {} : { below }),
    },
    bar: column.bar,
    at: column.at,
    ...(column.of === undefined ? {} : { of: column.of }),
    ...(column.choices === undefined ? {} : { choices: column.choices }),
    ...(formula === undefined ? {} : { formula }),
    ...(rowFormulas === undefined ? {} : { rowFormulas }),
    ...(inputs === undefined ? {} : { inputs }),
    ...(kept === undefined ? {} : { kept }),
    ...(column.total === undefined ? {} : { total: column.total }),
    ...(role === 'check'
      ? {
          check: {
            severity: column.severity,
            says: column.says ?? `${column.heading}: look.`,
            mend: column.mend,
          },
        }
      : {}),
  };
}
