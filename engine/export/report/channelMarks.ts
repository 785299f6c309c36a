import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';
import type { Dot } from './charts/dotsChart.ts';
import { item, keyList } from './key.ts';

type Look = Pick<Dot, 'mark' | 'colour'>;

/** Shape and colour together, so that a channel is known in grey print too. They begin again where they run out. */
const looks: readonly Look[] = [
  { mark: 'circle', colour: 'accent' },
  { mark: 'rect', colour: 'slate' },
  { mark: 'diamond', colour: 'watch' },
  { mark: 'triangle', colour: 'good' },
];

const shapes: Readonly<Record<string, string>> = {
  circle: '<circle cx="9" cy="6" r="4.5" fill="#"/>',
  rect: '<rect x="5" y="2" width="8" height="8" fill="#"/>',
  diamond: '<path d="M9 .5L14.5 6L9 11.5L3.5 6Z" fill="#"/>',
  triangle: '<path d="M9 .5L14.5 11H3.5Z" fill="#"/>',
};

/** The mark of the channel that stands at this place in the book. */
export function channelLook(at: number): Look {
  return looks[at % looks.length]!;
}

/** Which mark is which channel. */
export function channelKey(channels: readonly string[]): string {
  return keyList(
    channels.map((channel, at) => {
      const { mark, colour } = channelLook(at);
      return item(
        (shapes[mark] ?? '').replace('#', `var(--${colour})`),
        `<bdi>${escaped(shorten(channel, 40))}</bdi>`,
      );
    }),
  );
}
