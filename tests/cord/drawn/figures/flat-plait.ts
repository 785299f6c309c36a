import type { Figure, Strand, Tone, View } from '../../../support/drawnFigure.ts';
import { tauten } from '../tauten.ts';
import { lineOf, plaitWeave } from '../tautWeaves.ts';

const tones: readonly Tone[] = ['over', 'under', 'extra', 'core'];
const pitch = 2.4;

function plaitView(count: number, word: string): View {
  const weave = plaitWeave(count, pitch);
  const taut = tauten(weave, 1500);
  const strands = weave.strands.map(
    (move, k): Strand => ({ tone: tones[k % tones.length]!, line: lineOf(weave, taut, [-2, 3], move) }),
  );
  const aside = taut.points.map(([, y]) => y);
  const [low, high] = [Math.min(...aside) - 0.6, Math.max(...aside) + 0.6];
  return {
    caption: `${word} strands`,
    from: 'above',
    // The plait lies flat: its width is y, its thickness x.
    strands: strands.map((each) => ({
      ...each,
      line: each.line.map(([along, up, across]) => [along, across, up]),
    })),
    window: { right: [0, 9], up: [low, high] },
  };
}

export const figure: Figure = {
  title: 'Flat plaits',
  describes:
    'Flat plaits of three, four and six strands, each strand over one and under one from edge to edge.',
  views: [plaitView(3, 'three'), plaitView(4, 'four'), plaitView(6, 'six')],
};
