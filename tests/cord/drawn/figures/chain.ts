import type { Figure } from '../../../support/drawnFigure.ts';
import { chainWeave, lineOf, tautenedDown } from '../tautWeaves.ts';

const pitch = 3;
const weave = chainWeave(pitch);
const taut = tautenedDown(chainWeave, [4, pitch]).at(-1)!;
const line = lineOf(weave, taut, [-2, 5], weave.strands[0]!);
/** From behind one loop to behind the next, where the change of colour shows least. */
const perLoop = taut.points.length;
const start = 3 * perLoop - 9;

export const figure: Figure = {
  title: 'Plain chain',
  describes:
    'A chain of one cord. One loop is coloured: it comes up through the loop before, goes round, comes back down through it and on behind to the next.',
  views: [
    {
      caption: 'from the front, one loop coloured',
      from: 'above',
      strands: [
        { tone: 'over', line: line.slice(0, start + 1) },
        { tone: 'under', line: line.slice(start, start + perLoop + 1) },
        { tone: 'over', line: line.slice(start + perLoop) },
      ],
      window: { right: [0, 13], up: [-2.2, 2.2] },
      measures: [{ text: 'one loop, c', from: [4.4, -2.5], to: [7.4, -2.5] }],
    },
  ],
};
