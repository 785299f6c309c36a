import type { Figure, Place, Strand } from '../../../support/drawnFigure.ts';
import { barLaid } from '../barLaid.ts';
import { strandsOf } from '../strandsOf.ts';

const pitch = 2;
const { strands } = strandsOf(barLaid(2, pitch), ['over', 'under'], 11);

/** From a side loop of one edge to the next of the other, and round under it: one half knot a stitch. */
const stitch = (at: number, side: 1 | -1): Place[] => [
  [at - 1.2, -side * 1.2, 2.1],
  [at - 0.4, side * 1.2, 2.1],
  [at - 0.1, side * 2.2, 1.9],
  [at, side * 3.05, 0.8],
  [at + 0.2, side * 2.5, -0.2],
  [at + 0.4, side * 1.75, 0.5],
];
const places = Array.from({ length: 8 }, (_, i) =>
  stitch((i - 1) * pitch + 0.9, i % 2 === 0 ? 1 : -1),
).flat();
const line = places.flatMap((place, i): Place[] => {
  const next = places[i + 1];
  if (next === undefined) return [place];
  const count = Math.ceil(Math.hypot(next[0] - place[0], next[1] - place[1], next[2] - place[2]) / 0.25);
  return Array.from({ length: count }, (_, k): Place => {
    const t = k / count;
    return [
      place[0] + t * (next[0] - place[0]),
      place[1] + t * (next[1] - place[1]),
      place[2] + t * (next[2] - place[2]),
    ];
  });
});
const band: Strand = { tone: 'extra', line, thick: 0.45 };

export const figure: Figure = {
  title: 'A band stitched over a bar',
  describes:
    'From above: a thin cord crosses the face of a bar from a side loop of one edge to the next side loop of the other, goes round under it and crosses back.',
  views: [
    {
      caption: 'From above, drawn loose, one half knot a stitch',
      from: 'above',
      window: { right: [0, 11], up: [-3.4, 3.4] },
      strands: [...strands, band],
      labels: [
        { text: 'band cord', at: [4, 3.8], to: [4.1, 0.3] },
        { text: 'side loop', at: [7.5, 3.8], to: [7.5, 2.4] },
      ],
      measures: [{ text: 'one stitch', from: [4.9, -3.6], to: [6.9, -3.6] }],
    },
  ],
};
