import type { Figure, Strand } from '../../../support/drawnFigure.ts';
import { tauten } from '../tauten.ts';
import { lineOf, roundBraidWeave } from '../tautWeaves.ts';

const pitch = 3;
const weave = roundBraidWeave(4, pitch, 1);
const taut = tauten(weave, 2000);
const strands: readonly Strand[] = weave.strands.map((move, k) => ({
  tone: k < 2 ? 'over' : 'under',
  line: lineOf(weave, taut, [-2, 5], move),
}));

const thick = roundBraidWeave(8, 2.8, 2, 2);
const thickTaut = tauten(thick, 2000);
const around: readonly Strand[] = [
  { tone: 'core', thick: 2, line: Array.from({ length: 61 }, (_, i) => [i * 0.3 - 3, 0, 0] as const) },
  ...thick.strands.map(
    (move, k): Strand => ({ tone: k < 4 ? 'over' : 'under', line: lineOf(thick, thickTaut, [-1, 3], move) }),
  ),
];

export const figure: Figure = {
  title: 'Round braids of four and of eight strands',
  describes:
    'Left, a round braid of four strands over one and under one: two strands run round one way, two the other. Right, one of eight strands over two and under two about a straight core.',
  views: [
    {
      caption: 'four strands, over one, under one',
      from: 'above',
      strands,
      window: { right: [0, 12], up: [-2.2, 2.2] },
      measures: [{ text: 'pitch c', from: [4.5, -2.5], to: [7.5, -2.5] }],
    },
    {
      caption: 'eight, over two, under two, on a core',
      from: 'above',
      strands: around,
      window: { right: [0, 12], up: [-3.2, 3.2] },
    },
  ],
};
