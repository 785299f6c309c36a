import type { Expression } from '../../sheets/expression.ts';
import { referencesIn } from '../../sheets/expression.ts';
import type { PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import type { PlanIndex } from '../../sheets/planIndex.ts';
import type { Values } from '../values.ts';
import { FormulaFolder, type Surroundings } from './foldFormula.ts';
import { type CellNode, constant, factsOf, isLeaf, kind, type Leaf, type Slot } from './node.ts';
import { type Shape, takeApart } from './shape.ts';

/** One cell of a plan; rows from 0. */
export interface CellPlace {
  readonly sheet: string;
  readonly column: string;
  readonly row: number;
}

/** Cells of one column whose formulas have one shape, by row. */
export interface Group {
  /** When its column is calculated: after every column that it needs. */
  readonly rank: number;
  readonly shape: Shape;
  readonly slots: Slot[];
}

const nameOf = ({ sheet, column }: { readonly sheet: string; readonly column: string }): string =>
  `${sheet}.${column}`;

/** The part of a plan that depends on varied cells, folded cell by cell as it is asked for. */
export class Slice implements Surroundings {
  readonly index: PlanIndex;
  readonly #values: Values;
  /** Columns that may depend on a varied cell. */
  readonly #depending = new Set<string>();
  readonly #rank = new Map<string, number>();
  readonly #cells = new Map<string, (Leaf | undefined)[]>();
  readonly #groups = new Map<string, Group>();
  readonly #rowsVary = new Set<string>();

  /** @param varied cells that take figures, with the slots for them */
  constructor(index: PlanIndex, values: Values, varied: readonly (CellPlace & { readonly slot: Slot })[]) {
    this.index = index;
    this.#values = values;
    for (const place of varied) {
      const name = nameOf(place);
      const column = this.#cells.get(name) ?? [];
      column[place.row] = { tag: 'cell', slot: place.slot };
      this.#cells.set(name, column);
      this.#depending.add(name);
      if (index.sheet(place.sheet).sheet.key.includes(place.column)) this.#rowsVary.add(place.sheet);
    }
    const seen = new Set<string>();
    for (const sheet of index.plan.sheets)
      for (const column of sheet.columns) this.#visit(sheet, column, seen);
  }

  /** Every group with a cell that is needed, in the order in which they are calculated. */
  groups(): Group[] {
    return [...this.#groups.values()]
      .map((group) => ({
        ...group,
        slots: group.slots.filter((slot) => slot.needed).sort((one, other) => one.row - other.row),
      }))
      .filter((group) => group.slots.length > 0)
      .sort((one, other) => one.rank - other.rank);
  }

  rowsVary(sheet: string): boolean {
    return this.#rowsVary.has(sheet);
  }

  stretch(sheet: string, column: string): readonly Leaf[] {
    const { rowCount } = this.index.sheet(sheet).sheet;
    return Array.from({ length: rowCount }, (_, row) => this.cell(sheet, column, row));
  }

  cell(sheet: string, column: string, row: number): Leaf {
    const name = `${sheet}.${column}`;
    const known = this.#cells.get(name) ?? [];
    const before = known[row];
    if (before !== undefined) return before;
    const made = this.#depending.has(name)
      ? this.#calculated(sheet, column, row)
      : constant(this.#values.get(sheet, column, row));
    known[row] = made;
    this.#cells.set(name, known);
    return made;
  }

  #calculated(sheetId: string, columnId: string, row: number): Leaf {
    const { sheet } = this.index.sheet(sheetId);
    // A sheet without rows is one blank cell to whoever refers to it.
    if (row >= sheet.rowCount) return constant(null);
    const column = this.index.column(sheetId, columnId);
    const formula = column.formula ?? column.rowFormulas?.[row];
    if (formula === undefined) return constant(column.inputs?.[row] ?? null);
    try {
      const node = new FormulaFolder(this, sheet, row).fold(formula);
      if (isLeaf(node)) return node;
      const { shape, key, parameters } = takeApart(node);
      const name = nameOf({ sheet: sheetId, column: columnId });
      const id = `${name} ${key}`;
      const group = this.#groups.get(id) ?? { rank: this.#rank.get(name) ?? 0, shape, slots: [] };
      this.#groups.set(id, group);
      const slot: Slot = { row, facts: factsOf(node), needed: false, at: -1, leaves: parameters };
      group.slots.push(slot);
      return { tag: 'cell', slot } satisfies CellNode;
    } catch (error) {
      if (error instanceof CannotCompile) throw error;
      throw new CannotCompile(`${sheetId}.${columnId}, row ${row + 1}: ${String(error)}`, { cause: error });
    }
  }

  /** Columns in the order of need, and whether each depends on a varied cell. */
  #visit(sheet: PlanSheet, column: PlanColumn, seen: Set<string>): void {
    const name = nameOf({ sheet: sheet.id, column: column.id });
    if (seen.has(name)) return;
    seen.add(name);
    for (const formula of formulasOf(column)) {
      for (const to of referencesIn(formula)) {
        const target = this.index.sheet(to.sheet).sheet;
        this.#visit(target, this.index.column(to.sheet, to.column), seen);
        const needs = to.rows === 'keyed' ? [to.column, ...target.key] : [to.column];
        if (needs.some((each) => this.#depending.has(nameOf({ sheet: to.sheet, column: each })))) {
          this.#depending.add(name);
        }
      }
    }
    this.#rank.set(name, this.#rank.size);
  }
}

/** A formula that no program can hold: a fault of ours, with the column and what stands in the way. */
export class CannotCompile extends Error {}

/** Marks what results are calculated from. */
export function markNeeded(leaves: readonly (Leaf | readonly Leaf[])[]): void {
  const open: (Leaf | readonly Leaf[])[] = [...leaves];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (!('tag' in next)) open.push(...next);
    else if (next.tag === 'cell' && !next.slot.needed) {
      next.slot.needed = true;
      for (const leaf of next.slot.leaves) open.push(leaf);
    }
  }
}

function formulasOf(column: PlanColumn): readonly Expression[] {
  return column.formula === undefined ? (column.rowFormulas ?? []) : [column.formula];
}

/** What is known of a cell that takes a figure. */
export const variedFacts: Slot['facts'] = Object.freeze({
  kinds: kind.number,
  sure: true,
  lost: false,
  texts: [],
});
