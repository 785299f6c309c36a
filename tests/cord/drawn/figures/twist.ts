import type { Figure } from '../../../support/drawnFigure.ts';
import { strandsOf } from '../strandsOf.ts';
import { twistLaid } from '../twistLaid.ts';

const pitch = 1.5;
const knotsPerTurn = 12;
/** Squeezed a little, as in the hand; hard cords would stand apart. */
const touch = 0.8;
const { strands } = strandsOf(
  twistLaid(1, pitch, (-2 * Math.PI) / knotsPerTurn),
  ['over', 'under'],
  15,
  touch,
);

export const figure: Figure = {
  title: 'A half-knot twist',
  describes:
    'From above: two cords wind round one core strand, both in the same sense; the ridge of their bights turns slowly round the core, once in twelve half knots.',
  views: [
    {
      caption: 'From above, drawn loose, twelve half knots a turn',
      from: 'above',
      window: { right: [0, 15], up: [-2.6, 2.6] },
      strands,
      labels: [
        { text: 'ridge of bights in front', at: [7.6, 2.9], to: [7.2, 0.5] },
        { text: 'core', at: [12.2, 2.9], to: [11.2, 0] },
      ],
      measures: [{ text: 'half a turn: six half knots', from: [3, -3.3], to: [3 + 6 * pitch, -3.3] }],
    },
  ],
};
