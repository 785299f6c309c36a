import { normalQuantile } from './normal.ts';

/**
 * How an uncertain figure spreads.
 * - `triangular`: from the least to the greatest, the likely one most often
 * - `uniform`: anything from the least to the greatest alike
 * - `normal`: half of the cases on either side of the likely one; one in twenty is under the low, one over the high
 * - `lognormal`: the same of its logarithm, for what cannot fall under zero and now and then is far over
 *
 * Where low and high are not equally far from the likely one, each half of a normal or lognormal has its own spread
 * (a two-piece distribution), so that all three figures are met.
 */
export type Shape =
  | {
      readonly form: 'triangular';
      readonly least: number;
      readonly likely: number;
      readonly greatest: number;
    }
  | { readonly form: 'uniform'; readonly least: number; readonly greatest: number }
  | { readonly form: 'normal'; readonly middle: number; readonly below: number; readonly above: number }
  | {
      readonly form: 'lognormal';
      /** Median, above 0. */
      readonly middle: number;
      /** Standard deviations of the natural logarithm on either side. */
      readonly below: number;
      readonly above: number;
    };

/** A low that is undercut by one case in twenty lies so many standard deviations from the middle. */
export const oneInTwenty: number = normalQuantile(0.95);

/** The figure that stays under with this chance, above 0 and below 1. */
export function quantileOf(shape: Shape, chance: number): number {
  switch (shape.form) {
    case 'uniform':
      return shape.least + chance * (shape.greatest - shape.least);
    case 'triangular':
      return triangularQuantile(shape, chance);
    case 'normal': {
      const z = normalQuantile(chance);
      return shape.middle + z * (z < 0 ? shape.below : shape.above);
    }
    case 'lognormal': {
      const z = normalQuantile(chance);
      return shape.middle * Math.exp(z * (z < 0 ? shape.below : shape.above));
    }
  }
}

function triangularQuantile(
  { least, likely, greatest }: Extract<Shape, { form: 'triangular' }>,
  chance: number,
): number {
  const width = greatest - least;
  if (width === 0) return least;
  const left = (likely - least) / width;
  return chance < left
    ? least + Math.sqrt(chance * width * (likely - least))
    : greatest - Math.sqrt((1 - chance) * width * (greatest - likely));
}
