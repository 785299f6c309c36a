import { describe, expect, it } from 'vitest';
import { normalTail } from '../../engine/chance/normal.ts';
import { oneInTwenty, quantileOf, type Shape } from '../../engine/chance/shapes.ts';

/** What a shape has under a figure, by areas, from the definition of each. */
const shareUnder = (shape: Shape, x: number): number => {
  switch (shape.form) {
    case 'uniform':
      return (x - shape.least) / (shape.greatest - shape.least);
    case 'triangular': {
      const { least, likely, greatest } = shape;
      return x < likely
        ? (x - least) ** 2 / ((greatest - least) * (likely - least))
        : 1 - (greatest - x) ** 2 / ((greatest - least) * (greatest - likely));
    }
    case 'normal':
      return 1 - normalTail((x - shape.middle) / (x < shape.middle ? shape.below : shape.above));
    case 'lognormal': {
      const off = Math.log(x / shape.middle);
      return 1 - normalTail(off / (off < 0 ? shape.below : shape.above));
    }
  }
};

const shapes: readonly Shape[] = [
  { form: 'uniform', least: 2, greatest: 7 },
  { form: 'triangular', least: 2, likely: 3, greatest: 9 },
  { form: 'triangular', least: 2, likely: 2, greatest: 9 },
  { form: 'triangular', least: 2, likely: 9, greatest: 9 },
  { form: 'normal', middle: 5, below: 1, above: 3 },
  { form: 'lognormal', middle: 5, below: 0.1, above: 0.4 },
];

describe('the figure that stays under with a chance', () => {
  it.each(shapes)('has just that share of $form below it', (shape) => {
    for (const chance of [0.001, 0.05, 0.2, 0.5, 0.6, 0.95, 0.999])
      expect(shareUnder(shape, quantileOf(shape, chance))).toBeCloseTo(chance, 9);
  });

  it('of what is certain is that figure', () => {
    const certain: Shape = { form: 'triangular', least: 4, likely: 4, greatest: 4 };
    expect([0.01, 0.5, 0.99].map((chance) => quantileOf(certain, chance))).toEqual([4, 4, 4]);
  });

  it('meets low and high by one case in twenty on either side', () => {
    const shape: Shape = { form: 'normal', middle: 10, below: 2 / oneInTwenty, above: 5 / oneInTwenty };
    expect(quantileOf(shape, 0.05)).toBeCloseTo(8, 9);
    expect(quantileOf(shape, 0.95)).toBeCloseTo(15, 9);
  });
});
