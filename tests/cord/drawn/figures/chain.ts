import type { Figure, Strand } from '../../../support/drawnFigure.ts';
import { chainWeave, lineOf, tautenedDown } from '../tautWeaves.ts';

const pitch = 3;
const weave = chainWeave(pitch);
const taut = tautenedDown(chainWeave, [4, pitch]).at(-1)!;
const part = (repeats: readonly [number, number]): Strand['line'] =>
  lineOf(weave, taut, repeats, weave.strands[0]!);

export const figure: Figure = {
  title: 'Plain chain',
  describes:
    'A chain of one cord. One loop is coloured: it comes up through the loop before, goes round, comes back down through it and on behind to the next.',
  views: [
    {
      caption: 'from the front, one loop coloured',
      from: 'above',
      strands: [
        { tone: 'over', line: part([-2, 0]) },
        { tone: 'under', line: part([1, 1]) },
        { tone: 'over', line: part([2, 5]) },
      ],
      window: { right: [0, 13], up: [-2.2, 2.2] },
      measures: [{ text: 'one loop, c', from: [4.4, -2.5], to: [7.4, -2.5] }],
    },
  ],
};
