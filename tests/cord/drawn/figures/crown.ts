import type { Figure, Strand, Tone } from '../../../support/drawnFigure.ts';
import { tauten } from '../tauten.ts';
import { crownWeave, type DrawnWeave, lineOf } from '../tautWeaves.ts';

const tones: readonly Tone[] = ['over', 'under', 'extra', 'core'];
const strandsOf = (weave: DrawnWeave, repeats: readonly [number, number]): readonly Strand[] => {
  const taut = tauten(weave, 2000);
  return weave.strands.map((move, k) => ({ tone: tones[k]!, line: lineOf(weave, taut, repeats, move) }));
};
const box = crownWeave(4, 2.2);
const round = crownWeave(4, 2, -45);

export const figure: Figure = {
  title: 'Crown sinnets of four strands',
  describes:
    'Left, one crown seen from the end: each of four strands is laid over one neighbour and tucked under the next. Middle, a box sinnet, crowned to the left and to the right by turns. Right, a round sinnet, crowned always the same way, which turns.',
  views: [
    {
      caption: 'one crown, from the end',
      from: 'end',
      // What lies across; the strands stand up from it at their ends.
      strands: strandsOf(box, [0, 0]).map((each) => ({ ...each, line: each.line.slice(9, -9) })),
      window: { right: [-2.6, 2.6], up: [-2.6, 2.6] },
    },
    {
      caption: 'box sinnet',
      from: 'above',
      strands: strandsOf(box, [-3, 7]),
      window: { right: [0, 9], up: [-2.6, 2.6] },
      measures: [{ text: 'one crown, c', from: [3.8, -2.9], to: [6, -2.9] }],
    },
    {
      caption: 'round sinnet',
      from: 'above',
      strands: strandsOf(round, [-3, 7]),
      window: { right: [0, 9], up: [-2.6, 2.6] },
    },
  ],
};
