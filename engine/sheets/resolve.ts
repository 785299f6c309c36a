import { mendName } from '../book/problems/nearest.ts';
import { type Problem, type ProblemCode, problem } from '../book/problems/problem.ts';
import type { ColumnDefinition, SheetDefinition } from './definition.ts';
import type { Expression, NameReference, ParsedFormula, Reference } from './expression.ts';
import { sheetFunctions } from './functions.ts';
import { parseFormula } from './parseFormula.ts';
import { choose, type WrittenFormulas } from './written.ts';

/** What names may mean: every sheet by name, and which table its rows stand for. */
export interface Names {
  readonly sheets: ReadonlyMap<string, SheetDefinition>;
  readonly base: (sheet: string) => string;
  /** What `WRITTEN(families[family].take_up)` works out. */
  readonly written: WrittenFormulas;
}

/**
 * Parses the formula of a column and looks up its names.
 *
 * @param each the key that `each` stands for, in a column that is repeated
 * @returns the formula, or undefined with at least one problem added
 */
export function resolveFormula(
  text: string,
  column: ColumnDefinition,
  sheet: SheetDefinition,
  names: Names,
  problems: Problem[],
  each?: string,
): Expression | undefined {
  const parsed = parseFormula(text);
  const where = { ...column.at, column: column.heading };
  if ('fault' in parsed) {
    const { at, message, mend } = parsed.fault;
    problems.push(
      problem('formula-syntax', where, message, {
        found: around(text, at),
        accepted: 'a formula such as quantity * unit_cost',
        mend,
      }),
    );
    return undefined;
  }
  const before = problems.length;
  const complain = (code: ProblemCode, at: number, message: string, accepted: string, mend: string): void => {
    problems.push(problem(code, where, message, { found: around(text, at), accepted, mend }));
  };
  const resolved = new Resolver(sheet, names, complain, each).tree(parsed.tree, false);
  return problems.length > before ? undefined : resolved;
}

type Complain = (code: ProblemCode, at: number, message: string, accepted: string, mend: string) => void;

/** A stretch of the formula around an offset, for a message. */
function around(text: string, at: number): string {
  const flat = text.replace(/\s+/g, ' ');
  if (flat.length <= 90) return flat;
  const middle = text.slice(0, at).replace(/\s+/g, ' ').length;
  const start = Math.max(0, middle - 40);
  return `${start > 0 ? '…' : ''}${flat.slice(start, middle + 50)}${middle + 50 < flat.length ? '…' : ''}`;
}

function count(names: number): string {
  return names === 0 ? 'no name' : names === 1 ? 'one name' : `${names} names`;
}

class Resolver {
  readonly #sheet: SheetDefinition;
  readonly #names: Names;
  readonly #complain: Complain;
  readonly #each: string | undefined;

  constructor(sheet: SheetDefinition, names: Names, complain: Complain, each: string | undefined) {
    this.#sheet = sheet;
    this.#names = names;
    this.#complain = complain;
    this.#each = each;
  }

  tree(parsed: ParsedFormula, inAggregate: boolean): Expression {
    switch (parsed.kind) {
      case 'negate':
        return { kind: 'negate', of: this.tree(parsed.of, false) };
      case 'binary':
        return { ...parsed, left: this.tree(parsed.left, false), right: this.tree(parsed.right, false) };
      case 'call': {
        if (parsed.name === 'WRITTEN') return this.#written(parsed.args);
        const known = sheetFunctions.get(parsed.name);
        if (known === undefined) {
          const all = [...sheetFunctions.keys(), 'WRITTEN'];
          this.#complain(
            'function-unknown',
            0,
            `${parsed.name} is not a function of the sheets.`,
            `one of ${all.join(', ')}`,
            mendName(parsed.name, all),
          );
        } else if (parsed.args.length < known.fewest || parsed.args.length > known.most) {
          const wanted =
            known.fewest === known.most
              ? `${known.fewest}`
              : Number.isFinite(known.most)
                ? `${known.fewest} to ${known.most}`
                : `at least ${known.fewest}`;
          this.#complain(
            'formula-syntax',
            0,
            `${parsed.name} takes ${wanted} argument${/\b1$/.test(wanted) ? '' : 's'} and has ${parsed.args.length} here.`,
            `${wanted} in the brackets, separated by commas`,
            'Check the commas and brackets.',
          );
        }
        return {
          ...parsed,
          args: parsed.args.map((argument) => this.tree(argument, known?.aggregate ?? true)),
        };
      }
      case 'reference':
        if (parsed.to.sheet === undefined && parsed.to.column === 'each' && this.#each !== undefined) {
          return { kind: 'text', value: this.#each };
        }
        return { kind: 'reference', to: this.#reference(parsed.to, inAggregate) };
      default:
        return parsed;
    }
  }

  /** The formula that stands in a table's row, with the figures of this sheet. */
  #written(args: readonly ParsedFormula[]): Expression {
    const nothing: Expression = { kind: 'number', value: 0 };
    const [given] = args;
    const to = given?.kind === 'reference' && args.length === 1 ? given.to : undefined;
    const target = this.#names.sheets.get(to?.sheet ?? '');
    const by = to?.keys?.length === 1 ? to.keys[0] : undefined;
    const column = target?.columns.find(({ id }) => id === to?.column);
    if (to === undefined || target === undefined || by === undefined || column?.kind !== 'formula') {
      this.#complain(
        'formula-syntax',
        to?.at ?? 0,
        'WRITTEN works out a formula that stands in a table, and finds none here.',
        'WRITTEN(families[family].take_up), with a column of kind formula',
        'Name the row and the column that holds the formula.',
      );
      return nothing;
    }
    const written = this.#names.written.get(`${target.sheet}.${column.id}`);
    const formulas = new Map(written?.formulas.map(({ key, tree }) => [key, this.tree(tree, false)]));
    return choose(this.tree(by, false), written?.keys ?? [], formulas);
  }

  #reference(given: NameReference, inAggregate: boolean): Reference {
    const unknown: Reference = { rows: 'same', sheet: this.#sheet.sheet, column: given.column };
    if (given.sheet === undefined) {
      this.#mustHave(this.#sheet, given);
      return unknown;
    }
    const target = this.#names.sheets.get(given.sheet);
    if (target === undefined) {
      const all = [...this.#names.sheets.keys()];
      this.#complain(
        'sheet-unknown',
        given.at,
        `There is no sheet “${given.sheet}”.`,
        all.join(', '),
        mendName(given.sheet, all),
      );
      return unknown;
    }
    this.#mustHave(target, given);
    const to = { sheet: target.sheet, column: given.column };
    if (given.keys !== undefined) {
      if (given.keys.length !== target.key.length) {
        this.#complain(
          'needs-key',
          given.at,
          `A row of ${target.sheet} is known by ${count(target.key.length)}, and ${count(given.keys.length)} ${given.keys.length === 1 ? 'is' : 'are'} given.`,
          target.key.length === 0
            ? `${target.sheet}.${given.column}`
            : `${target.sheet}[${target.key.join(', ')}].${given.column}`,
          'Give as many as there are.',
        );
      }
      return { ...to, rows: 'keyed', keys: given.keys.map((key) => this.tree(key, false)) };
    }
    if ('form' in target.rows) return { ...to, rows: 'single' };
    if (inAggregate) return { ...to, rows: this.#owns(target) ? 'children' : 'all' };
    this.#complain(
      'needs-aggregate',
      given.at,
      `${given.sheet}.${given.column} is a whole column, and one value is needed here.`,
      `SUM(${given.sheet}.${given.column}) or ${given.sheet}[key].${given.column}`,
      'Add the column up, or say which row.',
    );
    return unknown;
  }

  #owns(target: SheetDefinition): boolean {
    const owners = target.belongs?.to ?? [];
    if (this.#sheet.key.length === 1) return owners.includes(this.#names.base(this.#sheet.sheet));
    // Rows that have an owner themselves see what else it owns: the cuts of a product see its ends. A sheet that
    // asks for its own column means all of it.
    const { belongs, key, sheet } = this.#sheet;
    if (belongs === undefined || belongs.column !== key[0] || target.sheet === sheet) return false;
    return belongs.to.length === 1 && owners.includes(belongs.to[0]!);
  }

  #mustHave(target: SheetDefinition, given: NameReference): void {
    const columns = target.columns.map((column) => column.id);
    if (columns.includes(given.column)) return;
    this.#complain(
      'column-name-unknown',
      given.at,
      `The sheet ${target.sheet} has no column “${given.column}”.`,
      columns.join(', '),
      mendName(given.column, columns),
    );
  }
}
