import { quantileOf, type Shape } from '../../chance/shapes.ts';
import { sizeOf, withSize } from '../alterations.ts';
import type { Mover } from '../mover.ts';
import type { Alteration } from '../words/change.ts';

/** An input that may be another than the tables say, and how. */
export interface UncertainInput {
  readonly input: string;
  readonly mover: Mover;
  /**
   * What the shape is a shape of: the share by which the figures change (0.05 for +5 %), the factor on them (1.05),
   * an amount added to them, or the new figure. One draw moves all cells of the input.
   */
  readonly of: 'percent' | 'factor' | 'amount' | 'value';
  readonly shape: Shape;
}

/** The alteration that a drawn figure stands for. */
export function alterationOf({ of }: UncertainInput, drawn: number): Alteration {
  switch (of) {
    case 'value':
      return { how: 'value', value: drawn };
    case 'factor':
      return { how: 'percent', by: drawn - 1 };
    default:
      return { how: of, by: drawn };
  }
}

/** What a range stands for where only its ends are tried: its least and greatest, or one case in twenty beyond each. */
export function endsOf(range: UncertainInput): { readonly low: Alteration; readonly high: Alteration } {
  const { shape } = range;
  const bounded = shape.form === 'triangular' || shape.form === 'uniform';
  const low = bounded ? shape.least : quantileOf(shape, 0.05);
  const high = bounded ? shape.greatest : quantileOf(shape, 0.95);
  // Quantiles have endless digits, and what is told must be what is tried.
  const tidy = (alteration: Alteration): Alteration =>
    withSize(alteration, Number(sizeOf(alteration).toPrecision(alteration.how === 'value' ? 5 : 3)));
  const [least, greatest] = [alterationOf(range, low), alterationOf(range, high)];
  return bounded ? { low: least, high: greatest } : { low: tidy(least), high: tidy(greatest) };
}
