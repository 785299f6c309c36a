import { sameKey } from '../book/book.ts';
import { convertLength, type LengthUnit } from '../book/measures/measure.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { Order } from './order.ts';
import { rowCount, textOf } from './supplies.ts';

/** Pieces of one length to cut, and what they are for. */
export interface Cut {
  readonly lengthUm: number;
  readonly pieces: number;
  readonly for: readonly { readonly product: string; readonly role: string; readonly pieces: number }[];
}

/** What an order takes of one material: lengths to cut, or a number of pieces. */
export interface Demand {
  readonly cuts: readonly Cut[];
  readonly pieces: number;
}

/** Whole micrometres, rounded up past the dust of unit conversion: a piece is never cut too short. */
export function micrometresUp(length: number, unit: LengthUnit): number {
  return Math.ceil(convertLength(length, unit, 'mm') * 1000 - 1e-4);
}

/** Whole micrometres, rounded down: stock is never taken for longer than it is. */
export function micrometresDown(length: number, unit: LengthUnit): number {
  return Math.floor(convertLength(length, unit, 'mm') * 1000 + 1e-4);
}

/**
 * What an order takes of every material, by the material's key, in the order of first use. Lengths are those
 * of the sheets Cuts and Parts; nothing is worked out again here.
 */
export function demands(
  plan: Plan,
  values: Values,
  order: Order,
  isByLength: (material: string) => boolean,
): Map<string, Demand> {
  const wanted = new Map(order.map(({ product, quantity }) => [sameKey(product), quantity]));
  const found = new Map<string, { cuts: Map<number, Cut>; pieces: number }>();
  const of = (material: string): { cuts: Map<number, Cut>; pieces: number } => {
    const known = found.get(sameKey(material)) ?? { cuts: new Map<number, Cut>(), pieces: 0 };
    found.set(sameKey(material), known);
    return known;
  };
  const addCut = (
    material: string,
    lengthUm: number,
    pieces: number,
    product: string,
    role: string,
  ): void => {
    if (pieces <= 0 || lengthUm <= 0) return;
    const { cuts } = of(material);
    const before = cuts.get(lengthUm);
    cuts.set(lengthUm, {
      lengthUm,
      pieces: (before?.pieces ?? 0) + pieces,
      for: [...(before?.for ?? []), { product, role, pieces }],
    });
  };
  const { lengthUnit, cordUnit } = plan.settings;
  for (let row = 0; row < rowCount(plan, 'cuts'); row += 1) {
    const product = textOf(values, 'cuts', 'product', row);
    const quantity = wanted.get(sameKey(product)) ?? 0;
    addCut(
      textOf(values, 'cuts', 'cord', row),
      micrometresUp(values.number('cuts', 'cut_length', row), lengthUnit),
      quantity * values.number('cuts', 'pieces', row),
      product,
      textOf(values, 'cuts', 'role', row),
    );
  }
  for (let row = 0; row < rowCount(plan, 'parts'); row += 1) {
    const product = textOf(values, 'parts', 'product', row);
    const material = textOf(values, 'parts', 'material', row);
    const quantity = wanted.get(sameKey(product)) ?? 0;
    const each = values.number('parts', 'quantity', row);
    if (isByLength(material)) addCut(material, micrometresUp(each, cordUnit), quantity, product, 'part');
    else if (quantity > 0) of(material).pieces += quantity * each;
  }
  return new Map(
    [...found].map(([material, { cuts, pieces }]) => [
      material,
      {
        cuts: [...cuts.values()].sort((one, other) => other.lengthUm - one.lengthUm),
        // Half a tube of glue a piece: a whole number is bought.
        pieces: Math.ceil(pieces - 1e-9),
      },
    ]),
  );
}
