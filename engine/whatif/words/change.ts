import type { CellValue } from '../../sheets/plan.ts';

/** Input cells of one column. Rows from 0. */
export interface InputCells {
  readonly sheet: string;
  readonly column: string;
  readonly rows: readonly number[];
}

/**
 * What happens to a figure.
 * - `percent`: it becomes figure x (1 + by); by is a ratio, 0.12 for +12 %
 * - `amount`: it becomes figure + by, in the unit of its column (a ratio where the column holds per cents)
 * - `value`: it becomes this value
 */
export type Alteration =
  | { readonly how: 'percent'; readonly by: number }
  | { readonly how: 'amount'; readonly by: number }
  | { readonly how: 'value'; readonly value: number | string };

/** One change as the maker wrote it, and what it means in this book. */
export interface Change {
  /** As written: `cord +12 %`. */
  readonly text: string;
  readonly cells: readonly InputCells[];
  readonly alteration: Alteration;
  /** What is changed, in words: `pack price of slate cord, rust cord`. */
  readonly reads: string;
  /** What happens to it, in words: `+12 %`, `22.00 to 27.00 USD`. */
  readonly effect: string;
  /** How to write the other thing that a bare figure may have meant, a per cent; blank where it is clear. */
  readonly otherwise: string;
}

/** As much of a change as is needed to apply it. */
export type PlainChange = Pick<Change, 'text' | 'cells' | 'alteration'>;

/** Why a text is no change, for a problem. */
export interface ChangeFault {
  readonly message: string;
  readonly accepted: string;
  readonly mend: string;
}

/** A cell after a change. A blank has nothing to go up or down by; it only takes a value. */
export function altered(before: CellValue, alteration: Alteration): CellValue {
  if (alteration.how === 'value') return alteration.value;
  if (typeof before !== 'number') return before;
  // The very sum that a workbook does, factor and summand, so that both end in the same bits.
  return alteration.how === 'percent' ? before * (1 + alteration.by) : before + alteration.by;
}
