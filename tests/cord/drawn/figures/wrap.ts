import type { Figure, Place, Strand } from '../../../support/drawnFigure.ts';
import { offsetCurve, type Point } from '../../outline.ts';
import { straight } from '../straight.ts';

const pitch = 1.6;
/** Four cords as a bundle pulls them together. */
const centres: readonly Point[] = [
  [-Math.sqrt(0.75), 0],
  [0, -0.5],
  [Math.sqrt(0.75), 0],
  [0, 0.5],
];

const turn = offsetCurve(centres, 1, 60).slice(0, -1);
const turns = 8;
const wrapped: Place[] = Array.from({ length: turns * turn.length }, (_, i): Place => {
  const [y, z] = turn[i % turn.length]!;
  return [(i / turn.length) * pitch - pitch, y, z];
});
const core: Strand[] = centres.map((place) => ({ tone: 'core', line: straight(place, -2, 9) }));
const over: Strand = { tone: 'over', line: wrapped };
const oneTurn: Strand = { tone: 'over', line: wrapped.slice(0, turn.length + 4) };

export const figure: Figure = {
  title: 'A wrap round four cords',
  describes:
    'From above: one cord wound round a bundle of four, turn beside turn; the pitch is the way from turn to turn. From the end: the turn keeps one diameter outside the middles of the wrapped cords.',
  views: [
    {
      caption: 'From above',
      from: 'above',
      window: { right: [0, 8], up: [-2.6, 2.6] },
      strands: [...core, over],
      labels: [
        { text: 'wrap', at: [5.2, 3.1], to: [4.95, 0.6] },
        { text: 'wrapped cords', at: [1.5, 3.1], to: [1.02, 0.87] },
      ],
      measures: [{ text: 'pitch', from: [1.6, -3], to: [3.2, -3] }],
    },
    {
      caption: 'From the end',
      from: 'end',
      window: { right: [-2.6, 2.6], up: [-2.6, 2.6] },
      strands: [...core, oneTurn],
      measures: [{ text: 'one diameter', from: [0.87, -2.6], to: [1.87, -2.6] }],
    },
  ],
};
