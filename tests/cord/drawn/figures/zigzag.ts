import type { Figure } from '../../../support/drawnFigure.ts';
import { strandsOf } from '../strandsOf.ts';
import { zigzagLaid } from '../zigzagLaid.ts';

const pitch = 1.5;
const { strands, onePeriod } = strandsOf(zigzagLaid(3, pitch, 2), ['over'], 9);

export const figure: Figure = {
  title: 'A zig-zag weave over three core strands',
  describes:
    'From above: one cord goes over and under three straight core strands by turns, round the last and back, under where it was over. From the end: it goes half round every strand in each pass.',
  views: [
    {
      caption: 'From above',
      from: 'above',
      window: { right: [0, 9], up: [-3.6, 3.6] },
      strands,
      labels: [
        { text: 'working cord', at: [3, 4], to: [3.7, 2.2] },
        { text: 'core strands', at: [6.8, 4], to: [5.1, 2] },
      ],
      measures: [{ text: 'two passes: 2 x pitch', from: [3, -3.8], to: [6, -3.8] }],
    },
    {
      caption: 'From the end',
      from: 'end',
      window: { right: [-3.6, 3.6], up: [-1.8, 1.8] },
      strands: onePeriod,
    },
  ],
};
