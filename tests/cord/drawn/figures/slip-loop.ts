import type { Figure } from '../../../support/drawnFigure.ts';
import { slipLoopLaid } from '../slipLoopLaid.ts';
import { strandsOf } from '../strandsOf.ts';

const pitch = 1.6;
/** Squeezed a little, as in the hand. */
const touch = 0.8;
const { strands } = strandsOf(slipLoopLaid(2, pitch), ['over', 'under'], 11, touch);

export const figure: Figure = {
  title: 'A slip-loop bar over two core strands',
  describes:
    'From above: loops of one cord cross the front as doubled cord, round the next loop of the other cord at the edge; loops of the other cord do the same behind.',
  views: [
    {
      caption: 'From above, drawn loose',
      from: 'above',
      window: { right: [0, 11], up: [-2.6, 2.6] },
      strands,
      labels: [
        { text: 'a loop: two parts of one cord', at: [4, 3.2], to: [4.9, 0.6] },
        { text: 'next loop, from behind', at: [8.3, -2.9], to: [8.8, -1.9] },
      ],
      measures: [{ text: 'pitch: one loop of either side', from: [3.2, -2.9], to: [4.8, -2.9] }],
    },
  ],
};
