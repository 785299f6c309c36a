import type { Figure } from '../../../support/drawnFigure.ts';
import { strandsOf } from '../strandsOf.ts';
import { stripeLaid } from '../stripeLaid.ts';

const pitch = 2.4;
const { strands } = strandsOf(stripeLaid(2, pitch), ['over', 'under', 'extra'], 11);

export const figure: Figure = {
  title: 'A stripe along the face of a bar',
  describes:
    'From above: a bar over two core strands; a third strand lies along the middle of its face, over the over cord at one half knot and under it at the next.',
  views: [
    {
      caption: 'From above, drawn loose',
      from: 'above',
      window: { right: [0, 11], up: [-3.3, 3.3] },
      strands,
      labels: [
        { text: 'stripe', at: [3, 3.7], to: [4.8, 0] },
        { text: 'over cord', at: [7.4, 3.7], to: [7.3, 0.9] },
      ],
      measures: [{ text: 'pitch: one half knot', from: [2.4, -3.5], to: [4.8, -3.5] }],
    },
  ],
};
