import { sameKey } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import { rowCount, textOf } from './supplies.ts';

/** A row of stock.csv while it is being changed. */
export interface Lot {
  readonly material: string;
  readonly row: number | null;
  holds: number;
  count: number;
  kind: string;
  /** Per cord unit or piece; null for what the material's own pack costs. */
  cost: number | null;
  readonly first: {
    readonly holds: number;
    readonly count: number;
    readonly kind: string;
    readonly cost: number | null;
  };
}

/** Lengths closer than this (in the cord unit) are written alike, and one row must hold them. */
const sameLength = 0.0011;

export function lot(
  material: string,
  row: number | null,
  holds: number,
  count: number,
  kind: string,
  cost: number | null,
): Lot {
  return { material, row, holds, count, kind, cost, first: { holds, count, kind, cost } };
}

/** The rows of stock.csv, as the book has them. */
export function lotsOf(plan: Plan, values: Values): Lot[] {
  const sheet = plan.sheets.find(({ id }) => id === 'stock');
  return Array.from({ length: rowCount(plan, 'stock') }, (_, row) => {
    const cost = values.get('stock', 'cost_set', row);
    return lot(
      textOf(values, 'stock', 'material', row),
      sheet?.places[row]?.row ?? null,
      values.number('stock', 'length', row),
      values.number('stock', 'count', row),
      textOf(values, 'stock', 'kind', row),
      typeof cost === 'number' ? cost : null,
    );
  });
}

/** What a unit of a material costs by its own pack. */
export function ownCost(plan: Plan, values: Values, material: string): number {
  for (let row = 0; row < rowCount(plan, 'materials'); row += 1)
    if (sameKey(textOf(values, 'materials', 'material', row)) === sameKey(material))
      return values.number('materials', 'landed_pack', row) / values.number('materials', 'pack', row);
  return 0;
}

/** A cost that is the material's own is left blank, and goes on following it. */
export function costBeside(own: number, cost: number): number | null {
  return Math.abs(cost - own) <= 1e-9 * Math.max(own, cost) ? null : cost;
}

/** Rows of one material, length and kind become one, at the cost of both together. Returns the rows to add. */
export function merged(lots: readonly Lot[], added: readonly Lot[], plan: Plan, values: Values): Lot[] {
  const kept: Lot[] = [];
  const join = (into: Lot, from: Lot): void => {
    if (into.cost !== from.cost) {
      const own = ownCost(plan, values, into.material);
      const all = into.count + from.count;
      into.cost = costBeside(own, ((into.cost ?? own) * into.count + (from.cost ?? own) * from.count) / all);
    }
    into.count += from.count;
    if (into.holds - from.holds > 1e-9) into.holds = from.holds;
    from.count = 0;
  };
  const alike = (one: Lot, other: Lot): boolean =>
    one !== other &&
    sameKey(one.material) === sameKey(other.material) &&
    one.kind === other.kind &&
    Math.abs(one.holds - other.holds) < sameLength;
  for (const each of lots) {
    const shortened = each.holds !== each.first.holds;
    // A row that stood there with none of it takes in what is like it, as any other.
    const twin =
      shortened && each.count > 0 ? lots.find((other) => alike(each, other) && isStanding(other)) : undefined;
    if (twin !== undefined) join(twin, each);
  }
  for (const each of added) {
    const twin = [...lots, ...kept].find((other) => alike(each, other) && isStanding(other));
    if (twin === undefined) kept.push(each);
    else join(twin, each);
  }
  return kept;
}

/** A row that is in use, or that its maker keeps at none. */
function isStanding(each: Lot): boolean {
  return each.count > 0 || each.first.count === 0;
}
