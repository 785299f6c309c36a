import type { Figure, Strand } from '../../../support/drawnFigure.ts';
import { lineOf, snakeWeave, tautenedDown } from '../tautWeaves.ts';

const pitch = 2.4;
const weave = snakeWeave(pitch);
const taut = tautenedDown(snakeWeave, [4, 3, pitch]).at(-1)!;
const strands = weave.strands.map(
  (move, k): Strand => ({ tone: k === 0 ? 'over' : 'under', line: lineOf(weave, taut, [-4, 7], move) }),
);

export const figure: Figure = {
  title: 'Snake knots',
  describes:
    "A row of snake knots: two cords, each going by turns round the other and up through the other cord's last loop. Seen from two sides.",
  views: [
    {
      caption: 'from the front',
      from: 'above',
      strands,
      window: { right: [0, 11], up: [-2.6, 2.6] },
      measures: [{ text: 'one knot, c', from: [4.2, -2.9], to: [6.6, -2.9] }],
    },
    {
      caption: 'from the side',
      from: 'above',
      strands: strands.map((each) => ({ ...each, line: each.line.map(([along, x, y]) => [along, y, -x]) })),
      window: { right: [0, 11], up: [-2.6, 2.6] },
    },
  ],
};
