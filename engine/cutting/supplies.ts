import { sameKey } from '../book/book.ts';
import { isFailure, type Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { Tier } from './task.ts';

/** What a pack costs, and the row of the sheet Packs that says so (from 0); null for the material's own pack. */
export interface PackTier extends Tier {
  readonly row: number | null;
}

/** A pack on sale: what it holds (in the cord unit, or in pieces) and its landed cost by how many are bought. */
export interface Pack {
  readonly holds: number;
  /** In the smallest coin. */
  readonly tiers: readonly PackTier[];
}

export interface OnHand {
  /** In the cord unit, or in pieces. */
  readonly holds: number;
  readonly count: number;
  readonly kind: string;
  /** What a cord unit or piece of it cost, in the book's currency. */
  readonly unitCost: number;
  /** Its row on the sheet Stock lengths, from 0. */
  readonly row: number;
}

/** A material with what lies in the workshop and what suppliers sell. */
export interface Supply {
  readonly material: string;
  readonly byLength: boolean;
  /** Landed cost per cord unit or piece of its own pack, in the book's currency. */
  readonly unitValue: number;
  readonly onHand: readonly OnHand[];
  readonly packs: readonly Pack[];
}

/** Reads a cell as text; blank where it is blank or failed. */
export function textOf(values: Values, sheet: string, column: string, row: number): string {
  const value = values.get(sheet, column, row);
  return value === null || isFailure(value) ? '' : String(value);
}

export function rowCount(plan: Plan, sheet: string): number {
  return plan.sheets.find((each) => each.id === sheet)?.rowCount ?? 0;
}

/** Every material of the book, by its key, from the sheets Materials, Packs and Stock lengths. */
export function supplies(plan: Plan, values: Values): Map<string, Supply> {
  const coins = 10 ** plan.settings.currencyDigits;
  const number = values.number.bind(values);
  const packs = new Map<string, Map<number, PackTier[]>>();
  const onHand = new Map<string, OnHand[]>();
  const addPack = (material: string, holds: number, tier: PackTier): void => {
    const own = packs.get(material) ?? new Map<number, PackTier[]>();
    own.set(holds, [...(own.get(holds) ?? []), tier]);
    packs.set(material, own);
  };
  for (let row = 0; row < rowCount(plan, 'materials'); row += 1) {
    addPack(sameKey(textOf(values, 'materials', 'material', row)), number('materials', 'pack', row), {
      fromPacks: 1,
      costEach: Math.round(number('materials', 'landed_pack', row) * coins),
      row: null,
    });
  }
  for (let row = 0; row < rowCount(plan, 'packs'); row += 1) {
    addPack(sameKey(textOf(values, 'packs', 'material', row)), number('packs', 'pack', row), {
      fromPacks: number('packs', 'from_packs', row),
      costEach: Math.round(number('packs', 'landed_pack', row) * coins),
      row,
    });
  }
  for (let row = 0; row < rowCount(plan, 'stock'); row += 1) {
    const material = sameKey(textOf(values, 'stock', 'material', row));
    const list = onHand.get(material) ?? [];
    const count = number('stock', 'count', row);
    const kind = textOf(values, 'stock', 'kind', row);
    const unitCost = number('stock', 'unit_cost', row);
    if (count > 0) list.push({ holds: number('stock', 'length', row), count, kind, unitCost, row });
    onHand.set(material, list);
  }
  return new Map(
    Array.from({ length: rowCount(plan, 'materials') }, (_, row): [string, Supply] => {
      const material = textOf(values, 'materials', 'material', row);
      const key = sameKey(material);
      return [
        key,
        {
          material,
          byLength: textOf(values, 'materials', 'sold_by', row) === 'length',
          unitValue: number('materials', 'landed_pack', row) / number('materials', 'pack', row),
          onHand: onHand.get(key) ?? [],
          packs: [...(packs.get(key) ?? [])].map(([holds, tiers]) => ({ holds, tiers })),
        },
      ];
    }),
  );
}
