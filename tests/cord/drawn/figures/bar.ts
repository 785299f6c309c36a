import type { Figure } from '../../../support/drawnFigure.ts';
import { barLaid } from '../barLaid.ts';
import { strandsOf } from '../strandsOf.ts';

const pitch = 2;
const { strands } = strandsOf(barLaid(2, pitch), ['over', 'under'], 10);

export const figure: Figure = {
  title: 'A knotted bar over two core strands',
  describes:
    'From above: two core strands lie straight side by side. The over cord crosses the front, goes under a bight of the under cord at each edge and comes back one pitch further on. The under cord shows only as bights along both edges; it crosses behind.',
  views: [
    {
      caption: 'From above, drawn loose',
      from: 'above',
      window: { right: [0, 10], up: [-3.3, 3.3] },
      strands,
      labels: [
        { text: 'under cord', at: [2.2, 3.7], to: [2.9, 2.4] },
        { text: 'over cord', at: [6.2, 3.7], to: [6.5, 0.5] },
        { text: 'core strands', at: [8.6, -4.1], to: [8.75, -0.5] },
      ],
      measures: [{ text: 'pitch: one half knot', from: [2, -3.5], to: [4, -3.5] }],
    },
  ],
};
